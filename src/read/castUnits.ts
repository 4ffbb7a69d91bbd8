// Columns in other units than their headings say, or exchanged: seen from the salinity that they imply. Limits are
// judgement: wide enough for any sea, estuary or lagoon; what numbers alone cannot tell is noted, not refused.
import { spFromC } from "../seawater/index.js";
import { median, quantile } from "../statistics/robustCentre.js";
import { BadInput, type Fault } from "./badInput.js";

/** The columns of one cell and how the file names them. */
export interface CellReadings {
  /** dbar. */
  readonly pressure: ArrayLike<number>;
  /** ITS-90 degree C. */
  readonly temperature: ArrayLike<number>;
  /** mS/cm, as taken from the file. */
  readonly conductivity: ArrayLike<number>;
  /** The unit that the file's heading gives. */
  readonly unit: "mS/cm" | "S/m";
  readonly headings: {
    readonly pressure: string;
    readonly temperature: string;
    readonly conductivity: string;
  };
}

/** Salinities of natural sea water, PSS-78; the Dead Sea apart. */
const natural = (sp: number) => sp >= 0.05 && sp <= 46;
const oceanic = (sp: number) => sp >= 28 && sp <= 42;
/** Water of salinity below 5 reaches no deeper than this in any sea: the Bothnian Bay ends at about 150 m. */
const freshEnds_dbar = 160;
/** The deepest trench is about 11,200 dbar. */
const deepest_dbar = 12000;
/** Warmer water is found at vents only. */
const warmest_C = 36;
/** Shallower than this an estuary may be as warm and fresh as exchanged columns look. */
const estuariesEnd_dbar = 50;
/** In air a cell reads near zero and says nothing of units, mS/cm. */
const inAir = 0.2;
/** Enough to judge by. */
const mostJudged = 2000;

/**
 * @returns what looks odd and may yet be right, in plain words
 * @throws BadInput where the columns cannot be what their headings say
 */
export function checkUnits(readings: CellReadings, file: string, line: number): readonly string[] {
  const { headings, unit } = readings;
  const fault = (column: string, found: string, expected: string, mend: string): BadInput => {
    const told: Fault = { file, line, column, found, expected, mend };
    return new BadInput([told]);
  };
  const chosen = spread(readings.pressure.length);
  const p = chosen.map((i) => readings.pressure[i]!);
  const deepest = quantile(p, 0.98);
  if (deepest > deepest_dbar) {
    throw fault(
      headings.pressure,
      `pressures up to ${deepest.toPrecision(3)}`,
      `sea pressure in dbar, ${deepest_dbar} at the most`,
      "Divide by 10 where it is in kPa, by 10 000 where it is in Pa.",
    );
  }
  if (deepest < 0 && quantile(p, 0.02) < -10) {
    throw fault(
      headings.pressure,
      `no pressure above ${deepest.toFixed(1)}`,
      "sea pressure in dbar, growing downward",
      "Give pressure, not height.",
    );
  }
  const inWater = chosen.filter((i) => readings.pressure[i]! > 0);
  const t = median(inWater.map((i) => readings.temperature[i]!));
  const implied = (conductivity: (i: number) => number, temperature = readings.temperature) =>
    median(inWater.map((i) => spFromC(conductivity(i), temperature[i]!, readings.pressure[i]!)));
  const c = readings.conductivity;
  const wet = inWater.filter((i) => c[i]! > inAir);
  const asGiven = median(
    wet.map((i) => spFromC(c[i]!, readings.temperature[i]!, readings.pressure[i]!)),
  );
  const told = `values whose median implies salinity ${asGiven.toPrecision(2)}`;
  const exchanged = implied((i) => readings.temperature[i]!, c);
  const middle = median(inWater.map((i) => c[i]!));
  const freshLake = middle > 0 && middle < 1.5;
  if (
    oceanic(exchanged) &&
    !oceanic(asGiven) &&
    (t > warmest_C || (deepest > estuariesEnd_dbar && !freshLake))
  ) {
    throw fault(
      headings.conductivity,
      told,
      "conductivity here and temperature in its own column",
      `The two look exchanged: swap the headings ${headings.temperature} and ${headings.conductivity}.`,
    );
  }
  if (wet.length === 0 || Number.isNaN(asGiven)) return [];
  const tenfold = implied((i) => 10 * c[i]!);
  if (unit === "mS/cm" && oceanic(tenfold) && asGiven < 5) {
    const mend = `name or map it as ${inUnit(headings.conductivity, "S_m")}, or multiply it by 10`;
    if (asGiven < 0.05 || deepest > freshEnds_dbar) {
      throw fault(
        headings.conductivity,
        told,
        "mS/cm: 20 to 65 in the ocean",
        `These look like S/m: ${mend}.`,
      );
    }
    return [
      `${headings.conductivity} implies salinity ${asGiven.toPrecision(2)}; if the water is not that fresh, it is in S/m: ${mend}`,
    ];
  }
  if (natural(asGiven)) return [];
  if (unit === "S/m" && natural(implied((i) => c[i]! / 10))) {
    throw fault(
      headings.conductivity,
      told,
      "S/m: 2 to 6.5 in the ocean",
      `These look like mS/cm: name or map it as ${inUnit(headings.conductivity, "mS_cm")}, or divide it by 10.`,
    );
  }
  throw fault(
    headings.conductivity,
    told,
    "conductivity of sea water, salinity 0.05 to 46",
    "Check the units of conductivity, temperature (degree C) and pressure (dbar).",
  );
}

/** Our heading of the same column in the other unit. */
function inUnit(heading: string, unit: "mS_cm" | "S_m"): string {
  return /_(mS_cm|S_m)$/.test(heading)
    ? heading.replace(/(mS_cm|S_m)$/, unit)
    : `conductivity_${unit}`;
}

/** Indices evenly spread over a column, `mostJudged` of them at the most. */
function spread(length: number): readonly number[] {
  const step = Math.max(1, Math.ceil(length / mostJudged));
  return Array.from({ length: Math.ceil(length / step) }, (_, k) => k * step);
}
