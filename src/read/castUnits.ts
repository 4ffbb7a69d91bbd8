// Columns in other units than their headings say, or exchanged columns, recognised by the resulting salinity. Limits are
// judgement: wide enough for any sea, estuary or lagoon. If numbers alone cannot decide, there is a note, not an error.
import { BadInput, type Fault } from "./badInput.js";
import { type CellReadings, type Sample, sampleOf } from "./unitSample.js";

/** Salinities of natural sea water, PSS-78, without the Dead Sea. */
const natural = (sp: number) => sp >= 0.05 && sp <= 46;
const oceanic = (sp: number) => sp >= 28 && sp <= 42;
/** Water of salinity below 5 reaches no deeper than this in any sea: the Bothnian Bay ends at about 150 m. */
const freshEnds_dbar = 160;
/** The deepest trench is about 11,200 dbar. */
const deepest_dbar = 12000;
/** Warmer water occurs only at vents. */
const warmest_C = 36;
/** A higher temperature is in kelvin or Fahrenheit, or is no temperature. */
const scalding_C = 60;
/** Sea water of salinity 46 at 36 degree C has about 80, mS/cm. */
const mostConductive = 100;
/** At shallower depth an estuary may be as warm and fresh as exchanged columns look. */
const estuariesEnd_dbar = 50;
/** Number of scans needed for the check. */
const usuallyJudged = 2000;

/**
 * @param judged number of scans to check, evenly spaced
 * @returns odd but possible findings, in plain words: a broken cell is not refused
 * @throws BadInput if the columns cannot be what their headings say
 */
export function checkUnits(
  readings: CellReadings,
  file: string,
  line: number,
  judged = usuallyJudged,
): readonly string[] {
  const sample = sampleOf(readings, judged);
  for (const find of [pressureFault, temperatureFault, exchangedFault, conductivityFault]) {
    const wrong = find(sample);
    if (wrong !== undefined) throw new BadInput([{ file, line, ...wrong }]);
  }
  return doubts(sample);
}

type UnitFault = Omit<Fault, "file" | "line">;

function pressureFault({
  readings: { headings },
  deepest,
  highest,
}: Sample): UnitFault | undefined {
  if (deepest > deepest_dbar) {
    return {
      column: headings.pressure,
      found: `pressures up to ${deepest.toPrecision(3)}`,
      expected: `sea pressure in dbar, ${deepest_dbar} at the most`,
      mend: "If it is in kPa, divide it by 10. If it is in Pa, divide it by 10 000.",
    };
  }
  if (!(deepest < 0 && highest < -10)) return undefined;
  return {
    column: headings.pressure,
    found: `no pressure above ${deepest.toFixed(1)}`,
    expected: "sea pressure in dbar, growing downward",
    mend: "Give pressure, not height.",
  };
}

function temperatureFault({ readings: { headings }, temperature }: Sample): UnitFault | undefined {
  if (!(temperature > scalding_C)) return undefined;
  return {
    column: headings.temperature,
    found: `temperatures about ${temperature.toPrecision(3)}`,
    expected: "degree C",
    mend: "Convert from kelvin or Fahrenheit.",
  };
}

function exchangedFault(sample: Sample): UnitFault | undefined {
  const { readings, asGiven, exchanged, temperature, conductivity, deepest } = sample;
  // A deep fresh lake, warm and with little salt, looks similar.
  const lake = conductivity > 0 && conductivity < 1.5;
  const likely = temperature > warmest_C || (deepest > estuariesEnd_dbar && !lake);
  if (oceanic(asGiven) || !likely || !oceanic(exchanged())) return undefined;
  const { headings } = readings;
  return {
    column: headings.conductivity,
    found: implies(asGiven),
    expected: "conductivity here and temperature in its own column",
    mend: `The two look exchanged: swap the headings ${headings.temperature} and ${headings.conductivity}.`,
  };
}

function conductivityFault(sample: Sample): UnitFault | undefined {
  const { asGiven, scaled, conductivity, deepest } = sample;
  const { unit, headings } = sample.readings;
  const column = headings.conductivity;
  const found = implies(asGiven);
  if (mayBeSiemens(sample) && (asGiven < 0.05 || deepest > freshEnds_dbar)) {
    const mend = `These look like S/m: ${siemensMend(column)}.`;
    return { column, found, expected: "mS/cm: 20 to 65 in the ocean", mend };
  }
  if (unit === "S/m" && !natural(asGiven) && natural(scaled(0.1))) {
    const mend = `These look like mS/cm: name or map it as ${inUnit(column, "mS_cm")}, or divide it by 10.`;
    return { column, found, expected: "S/m: 2 to 6.5 in the ocean", mend };
  }
  if (!(conductivity > mostConductive)) return undefined;
  return {
    column,
    found: `conductivities about ${conductivity.toPrecision(3)} mS/cm`,
    expected: "mS/cm: 20 to 65 in the ocean",
    mend: "Divide by 1000 if it is in microsiemens per cm.",
  };
}

function doubts(sample: Sample): readonly string[] {
  const { asGiven } = sample;
  const { conductivity: column } = sample.readings.headings;
  if (Number.isNaN(asGiven)) return [];
  if (mayBeSiemens(sample)) {
    return [
      `${column} implies salinity ${asGiven.toPrecision(2)}. If the water is not that fresh, it is in S/m: ${siemensMend(column)}`,
    ];
  }
  return natural(asGiven)
    ? []
    : [
        `${column} implies salinity ${asGiven.toPrecision(2)}, which is no sea water: a broken cell, or units`,
      ];
}

/** Fresh as given, an ocean if it were in S/m. */
function mayBeSiemens({ readings: { unit }, asGiven, scaled }: Sample): boolean {
  return unit === "mS/cm" && asGiven < 5 && oceanic(scaled(10));
}

function siemensMend(column: string): string {
  return `name or map it as ${inUnit(column, "S_m")}, or multiply it by 10`;
}

function implies(salinity: number): string {
  return `values whose median implies salinity ${salinity.toPrecision(2)}`;
}

/** Our heading for the same column in the other unit. */
function inUnit(heading: string, unit: "mS_cm" | "S_m"): string {
  return /_(mS_cm|S_m)$/.test(heading)
    ? heading.replace(/(mS_cm|S_m)$/, unit)
    : `conductivity_${unit}`;
}
