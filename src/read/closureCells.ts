// The columns of a bottles table with the CTD readings at closure.
import type { Bottle, ClosureReading } from "../cast/bottle.js";
import type { CellName } from "../cast/cast.js";
import { cFromSp } from "../seawater/index.js";
import { checkUnits } from "./castUnits.js";
import type { Table } from "./table.js";

/** The cells by the end of their headings. */
const suffixes = { primary: "", secondary: "2" } as const;

/** The reading of one cell at closure, its conductivity in mS/cm; undefined if unknown. */
export function closureReading(
  number: (heading: string) => number,
  cell: CellName,
  pressure_dbar: number,
  rebuilt: Set<string>,
): ClosureReading | undefined {
  const suffix = suffixes[cell];
  const temperature_C = number(`ctd_temperature${suffix}_C`);
  const milli = number(`ctd_conductivity${suffix}_mS_cm`);
  const siemens = number(`ctd_conductivity${suffix}_S_m`);
  const salinity = number(`ctd_salinity${suffix}`);
  if (Number.isNaN(temperature_C)) return undefined;
  const measured = Number.isNaN(milli) ? 10 * siemens : milli;
  if (!Number.isNaN(measured)) return { temperature_C, conductivity_mS_cm: measured };
  const conductivity_mS_cm = cFromSp(salinity, temperature_C, pressure_dbar);
  if (Number.isNaN(conductivity_mS_cm)) return undefined;
  rebuilt.add(`ctd_salinity${suffix}`);
  return { temperature_C, conductivity_mS_cm };
}

/** Check the units of the readings of one cell, as for the columns of a cast. */
export function closureUnits(
  { headings, headingLine }: Table,
  bottles: readonly Bottle[],
  cell: CellName,
  file: string,
): readonly string[] {
  const suffix = suffixes[cell];
  const milli = `ctd_conductivity${suffix}_mS_cm`;
  const siemens = `ctd_conductivity${suffix}_S_m`;
  const given = [milli, siemens].find((name) => headings.includes(name));
  const read = bottles.filter(({ ctd }) => ctd?.[cell] !== undefined);
  if (given === undefined || read.length === 0) return [];
  const readings = {
    pressure: read.map(({ pressure_dbar }) => pressure_dbar),
    temperature: read.map(({ ctd }) => ctd![cell]!.temperature_C),
    conductivity: read.map(({ ctd }) => ctd![cell]!.conductivity_mS_cm),
    unit: given === siemens ? ("S/m" as const) : ("mS/cm" as const),
    headings: {
      pressure: "pressure_dbar",
      temperature: `ctd_temperature${suffix}_C`,
      conductivity: given,
    },
  };
  return checkUnits(readings, file, headingLine);
}
