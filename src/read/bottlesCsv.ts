// Reference bottles as a plain table. With the CTD's readings at closure it is a cruise by itself.
import type { Bottle, ClosureReading } from "../cast/bottle.js";
import type { CellName } from "../cast/cast.js";
import type { CruiseCast, InputFile, LeftOutRow } from "../cast/cruise.js";
import { cFromSp } from "../seawater/index.js";
import { BadInput, type Fault, faultSentence } from "./badInput.js";
import { present } from "./present.js";
import { rowReader } from "./rowReader.js";
import { readTable, requireHeadings, type Table, type TableRow } from "./table.js";

export interface ReadBottles {
  readonly bottles: readonly Bottle[];
  /** The casts named in the file, in the order in which they come up. */
  readonly casts: readonly CruiseCast[];
  readonly input: InputFile;
}

/**
 * Read bottles from text.
 * @param text headings `cast, bottle, pressure_dbar, salinity`, optional `time_s`, `closure_time`, `flag`,
 *   `bottle_flag`, `run`, `ctd_temperature_C, ctd_conductivity_mS_cm` (and `...2_...`), `ctd_salinity`, `latitude,
 *   longitude, start`; others are left alone
 * @throws BadInput where a heading is missing, or where no row can be used
 */
export function readBottlesCsv(text: string, { file }: { readonly file: string }): ReadBottles {
  const table = readTable(text, file);
  requireHeadings(
    table.headings,
    ["cast", "bottle", "pressure_dbar", "salinity"],
    file,
    table.headingLine,
  );
  const bottles: Bottle[] = [];
  const casts = new Map<string, CruiseCast>();
  const leftOut: LeftOutRow[] = [];
  const allFaults: Fault[] = [];
  for (const row of table.rows) {
    const faults: Fault[] = [];
    const read = bottleOf(table, row, file, faults);
    if (read === undefined || faults.length > 0) {
      allFaults.push(...faults);
      leftOut.push({ line: row.line, why: faults.map(faultSentence).join(" ") });
      continue;
    }
    bottles.push(read.bottle);
    if (!casts.has(read.cast.id)) casts.set(read.cast.id, read.cast);
  }
  if (bottles.length === 0 && allFaults.length > 0) throw new BadInput(allFaults.slice(0, 20));
  const rebuilt =
    table.headings.includes("ctd_salinity") && !table.headings.includes("ctd_conductivity_mS_cm");
  return {
    bottles,
    casts: [...casts.values()],
    input: {
      name: file,
      role: "bottles",
      rows: table.rows.length,
      leftOut,
      notes: rebuilt ? ["the CTD's conductivity at closure was rebuilt from ctd_salinity"] : [],
    },
  };
}

function bottleOf(table: Table, row: TableRow, file: string, faults: Fault[]) {
  const { text, number, time, fault } = rowReader(table, row, file, faults);
  const cast = text("cast");
  const pressure_dbar = number("pressure_dbar");
  if (cast === undefined)
    fault("cast", "the id of a cast", "Write which cast the bottle was closed on.");
  if (Number.isNaN(pressure_dbar)) {
    fault("pressure_dbar", "the pressure at closure", "Write the sea pressure in dbar.");
  }
  const flags = { flag: number("flag"), bottleFlag: number("bottle_flag") };
  const time_s = number("time_s");
  const start = time("start");
  const place = { latitude: number("latitude"), longitude: number("longitude") };
  const ctd = closureOf(number, pressure_dbar);
  if (cast === undefined) return undefined;
  return {
    bottle: present<Bottle>({
      cast,
      bottle: text("bottle") ?? "?",
      pressure_dbar,
      salinity: number("salinity"),
      time_s: Number.isNaN(time_s) ? undefined : time_s,
      closureTime: time("closure_time"),
      flag: Number.isNaN(flags.flag) ? undefined : flags.flag,
      bottleFlag: Number.isNaN(flags.bottleFlag) ? undefined : flags.bottleFlag,
      run: text("run"),
      ctd: Object.keys(ctd).length === 0 ? undefined : ctd,
      line: row.line,
    }),
    cast: present<CruiseCast>({
      id: cast,
      start,
      latitude: Number.isNaN(place.latitude) ? undefined : place.latitude,
      longitude: Number.isNaN(place.longitude) ? undefined : place.longitude,
      data: undefined,
    }),
  };
}

function closureOf(
  number: (heading: string) => number,
  pressure: number,
): Partial<Record<CellName, ClosureReading>> {
  const ctd: Partial<Record<CellName, ClosureReading>> = {};
  for (const [cell, suffix] of [
    ["primary", ""],
    ["secondary", "2"],
  ] as const) {
    const temperature_C = number(`ctd_temperature${suffix}_C`);
    const conductivity = number(`ctd_conductivity${suffix}_mS_cm`);
    const salinity = suffix === "" ? number("ctd_salinity") : Number.NaN;
    const conductivity_mS_cm = Number.isNaN(conductivity)
      ? cFromSp(salinity, temperature_C, pressure)
      : conductivity;
    if (Number.isFinite(temperature_C) && Number.isFinite(conductivity_mS_cm)) {
      ctd[cell] = { temperature_C, conductivity_mS_cm };
    }
  }
  return ctd;
}
