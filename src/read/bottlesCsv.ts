// Reference bottles as a plain table. With the CTD's readings at closure it is a cruise by itself.

import type { Bottle, ClosureReading } from "../cast/bottle.js";
import type { CellName } from "../cast/cast.js";
import type { CruiseCast } from "../cast/cruise.js";
import { isPressure } from "../cast/impossibleReadings.js";
import type { LeftOutRow } from "../cast/inputFile.js";
import { BadInput, type Fault, faultSentence } from "./badInput.js";
import { castIdFault } from "./castIds.js";
import { closureReading, closureUnits } from "./closureCells.js";
import { requireHeadings } from "./headings.js";
import { numberCell } from "./numberCell.js";
import { present } from "./present.js";
import { type ReadBottles, readBottles } from "./readBottles.js";
import { repeatedRows } from "./repeatedRows.js";
import { ifKnown, rowReader } from "./rowReader.js";
import { readTable, type Table } from "./table.js";
import type { TableRow } from "./tableRow.js";
import { zoneNotes } from "./timeCell.js";

/** Upper limit of natural water that a salinometer measures, PSS-78. */
const saltiest = 50;

/**
 * Read bottles from text.
 * @param text headings `cast, bottle, pressure_dbar, salinity`, optional `time_s`, `closure_time`, `flag`, `bottle_flag`,
 *   `run`, `ctd_temperature_C, ctd_conductivity_mS_cm` (or `ctd_conductivity_S_m`, or `ctd_salinity`), the same with `2`
 *   for the second cell, `latitude, longitude, start`; others are ignored
 * @param told `cast`: the id of the only possible cast of the bottles, if the table has no column for it
 * @returns bottles and casts; rows with a fault, and repeated rows, are excluded and listed
 * @throws BadInput if a heading is missing, a unit is wrong, or no row can be used
 */
export function readBottlesCsv(
  text: string,
  { file, cast }: { readonly file: string; readonly cast?: string },
): ReadBottles {
  const table = readTable(text, file);
  const ofOne = cast !== undefined && !table.headings.includes("cast");
  const wanted = [...(ofOne ? [] : ["cast", "bottle"]), "pressure_dbar", "salinity"];
  requireHeadings(table.headings, wanted, file, table.headingLine);
  const bottles: Bottle[] = [];
  const casts = new Map<string, CruiseCast>();
  const leftOut: LeftOutRow[] = [];
  const allFaults: Fault[] = [];
  const rebuilt = new Set<string>();
  const twice = repeatedRows(table.rows);
  for (const row of table.rows) {
    const same = twice.get(row);
    if (same !== undefined) {
      leftOut.push({ line: row.line, why: `the same as line ${same}: counted once` });
      continue;
    }
    const faults: Fault[] = [];
    const read = readRow(table, row, file, faults, rebuilt, ofOne ? cast : undefined);
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
    ...(ofOne ? [`no column \`cast\`: all bottles were taken as of cast ${cast}`] : []),
    ...[...rebuilt].map((name) => `the CTD's conductivity at closure was rebuilt from ${name}`),
    ...zoneNotes(table, ["closure_time", "start"]),
    ...(["primary", "secondary"] as const).flatMap((cell) =>
      closureUnits(table, bottles, cell, file),
    ),
  ];
  return readBottles(bottles, casts, { name: file, rows: table.rows.length, leftOut, notes });
}

function readRow(
  table: Table,
  row: TableRow,
  file: string,
  faults: Fault[],
  rebuilt: Set<string>,
  only: string | undefined,
) {
  const { text, number, time, fault } = rowReader(table, row, file, faults);
  if (faults.length > 0) return undefined;
  const cast = text("cast") ?? only;
  const pressure_dbar = number("pressure_dbar");
  const salinity = number("salinity");
  if (cast === undefined) {
    fault("cast", "the id of a cast", "Write which cast the bottle was closed on.");
    return undefined;
  }
  const wrongId = castIdFault(cast);
  if (wrongId !== undefined) fault("cast", wrongId.expected, wrongId.mend);
  if (numberCell(text("pressure_dbar")) !== undefined && !isPressure(pressure_dbar)) {
    fault("pressure_dbar", "the pressure at closure", "Write the sea pressure in dbar.");
  }
  if (salinity < 0 || salinity > saltiest) {
    fault(
      "salinity",
      `Practical Salinity, 0 to ${saltiest}`,
      "Correct the value, or leave it blank.",
    );
  }
  const ctd: Partial<Record<CellName, ClosureReading>> = {};
  for (const cell of ["primary", "secondary"] as const) {
    const reading = closureReading(number, cell, pressure_dbar, rebuilt);
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

function noRows({ headingLine }: Table, file: string): Fault {
  return {
    file,
    line: headingLine,
    found: "headings and no row",
    expected: "one row for each bottle",
    mend: "Check that the file was written to its end.",
  };
}
