// Reference bottles as a plain table. With the CTD's readings at closure it is a cruise by itself.
import type { Bottle, ClosureReading } from "../cast/bottle.js";
import type { CellName } from "../cast/cast.js";
import type { CruiseCast, InputFile, LeftOutRow } from "../cast/cruise.js";
import { cFromSp } from "../seawater/index.js";
import { BadInput, type Fault, faultSentence } from "./badInput.js";
import { checkUnits } from "./castUnits.js";
import { requireHeadings } from "./headings.js";
import { present } from "./present.js";
import { ifKnown, rowReader } from "./rowReader.js";
import { readTable, type Table, type TableRow } from "./table.js";
import { zoneNotes } from "./timeCell.js";

export interface ReadBottles {
  readonly bottles: readonly Bottle[];
  /** The casts named in the file, in the order in which they come up. */
  readonly casts: readonly CruiseCast[];
  readonly input: InputFile;
}

/** The cells by the end of their headings. */
const suffixes = { primary: "", secondary: "2" } as const;
/** No natural water that a salinometer takes is saltier, PSS-78. */
const saltiest = 50;

/**
 * Read bottles from text.
 * @param text headings `cast, bottle, pressure_dbar, salinity`, optional `time_s`, `closure_time`, `flag`,
 *   `bottle_flag`, `run`, `ctd_temperature_C, ctd_conductivity_mS_cm` (or `ctd_conductivity_S_m`, or `ctd_salinity`),
 *   the same with `2` for the second cell, `latitude, longitude, start`; others are left alone
 * @returns bottles and casts; rows with a fault are left out and listed
 * @throws BadInput where a heading is missing, a unit is wrong, or no row can be used
 */
export function readBottlesCsv(text: string, { file }: { readonly file: string }): ReadBottles {
  const table = readTable(text, file);
  const wanted = ["cast", "bottle", "pressure_dbar", "salinity"];
  requireHeadings(table.headings, wanted, file, table.headingLine);
  const bottles: Bottle[] = [];
  const casts = new Map<string, CruiseCast>();
  const leftOut: LeftOutRow[] = [];
  const allFaults: Fault[] = [];
  const rebuilt = new Set<string>();
  for (const row of table.rows) {
    const faults: Fault[] = [];
    const read = readRow(table, row, file, faults, rebuilt);
    if (read === undefined || faults.length > 0) {
      allFaults.push(...faults);
      leftOut.push({ line: row.line, why: faults.map(faultSentence).join(" ") });
      continue;
    }
    bottles.push(read.bottle);
    casts.set(read.cast.id, { ...read.cast, ...casts.get(read.cast.id) });
  }
  if (bottles.length === 0)
    throw new BadInput(allFaults.length > 0 ? allFaults : [noRows(table, file)]);
  const notes = [
    ...table.notes,
    ...[...rebuilt].map((name) => `the CTD's conductivity at closure was rebuilt from ${name}`),
    ...zoneNotes(table, ["closure_time", "start"]),
    ...(Object.keys(suffixes) as CellName[]).flatMap((cell) =>
      unitNotes(table, bottles, cell, file),
    ),
  ];
  return {
    bottles,
    casts: [...casts.values()],
    input: { name: file, role: "bottles", rows: table.rows.length, leftOut, notes },
  };
}

function readRow(table: Table, row: TableRow, file: string, faults: Fault[], rebuilt: Set<string>) {
  const { text, number, time, fault } = rowReader(table, row, file, faults);
  if (faults.length > 0) return undefined;
  const cast = text("cast");
  const pressure_dbar = number("pressure_dbar");
  const salinity = number("salinity");
  if (cast === undefined) {
    fault("cast", "the id of a cast", "Write which cast the bottle was closed on.");
    return undefined;
  }
  if (text("pressure_dbar") === undefined) {
    fault("pressure_dbar", "the pressure at closure", "Write the sea pressure in dbar.");
  }
  if (salinity < 0 || salinity > saltiest) {
    fault("salinity", `Practical Salinity, 0 to ${saltiest}`, "Mend the value, or leave it blank.");
  }
  const ctd: Partial<Record<CellName, ClosureReading>> = {};
  for (const cell of ["primary", "secondary"] as const) {
    const reading = closureReading(number, suffixes[cell], pressure_dbar, rebuilt);
    if (reading !== undefined) ctd[cell] = reading;
  }
  return {
    bottle: present<Bottle>({
      cast,
      bottle: text("bottle") ?? "?",
      pressure_dbar,
      salinity,
      time_s: ifKnown(number("time_s")),
      closureTime: time("closure_time"),
      flag: ifKnown(number("flag")),
      bottleFlag: ifKnown(number("bottle_flag")),
      run: text("run"),
      ctd: Object.keys(ctd).length === 0 ? undefined : ctd,
      line: row.line,
    }),
    cast: present<CruiseCast>({
      id: cast,
      start: time("start"),
      latitude: ifKnown(number("latitude")),
      longitude: ifKnown(number("longitude")),
    }),
  };
}

/** What one cell read at closure, its conductivity in mS/cm; undefined where that is not known. */
function closureReading(
  number: (heading: string) => number,
  suffix: "" | "2",
  pressure_dbar: number,
  rebuilt: Set<string>,
): ClosureReading | undefined {
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

/** The readings of one cell held against their units, as the columns of a cast are. */
function unitNotes(
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

function noRows({ headingLine }: Table, file: string): Fault {
  return {
    file,
    line: headingLine,
    found: "headings and no row",
    expected: "one row a bottle",
    mend: "Check that the file was written to its end.",
  };
}
