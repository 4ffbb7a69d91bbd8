// WHP-Exchange bottle files (hy1): they contain the CTD's values beside the laboratory's, so one file is a whole cruise.
import type { Bottle } from "../cast/bottle.js";
import type { CruiseCast } from "../cast/cruise.js";
import { isPressure } from "../cast/impossibleReadings.js";
import type { LeftOutRow } from "../cast/inputFile.js";
import { cFromSp, t90FromT68 } from "../seawater/index.js";
import { BadInput, quoted } from "./badInput.js";
import { castIdFault } from "./castIds.js";
import {
  badCtdFlags,
  type ExchangeTable,
  exchangeCastId,
  exchangeRow,
  exchangeTime,
  isClock,
  readExchange,
  requireParameters,
  temperatureScale,
} from "./exchange.js";
import { numberCell } from "./numberCell.js";
import { present } from "./present.js";
import { type ReadBottles, readBottles } from "./readBottles.js";
import { repeatedRows } from "./repeatedRows.js";
import { ifKnown } from "./rowReader.js";
import { raggedness, type TableRow } from "./tableRow.js";

const measured = ["CTDPRS", "CTDTMP", "CTDSAL", "SALNTY"] as const;

/**
 * Read a cruise's bottles and casts from text.
 * @param text a WHP-Exchange bottle file [CCHDO2022]
 * @returns bottles, casts named `STNNBR/CASTNO`; conductivity computed from CTDSAL at CTDTMP and CTDPRS, absent if CTDSAL
 *   is flagged 3, 4, 5 or 9
 * @throws BadInput if the text is not a bottle file or lacks a column that a comparison needs
 */
export function readExchangeBottles(
  text: string,
  { file }: { readonly file: string },
): ReadBottles {
  const table = readExchange(text, "BOTTLE", file);
  requireParameters(table, ["STNNBR", "CASTNO", ...measured], file);
  const bottles: Bottle[] = [];
  const casts = new Map<string, CruiseCast>();
  const leftOut: LeftOutRow[] = [];
  let timeless = 0;
  const twice = repeatedRows(table.rows);
  for (const row of table.rows) {
    const same = twice.get(row);
    const why = same === undefined ? whyNot(table, row) : `the same as line ${same}: counted once`;
    if (why !== undefined) {
      leftOut.push({ line: row.line, why });
      continue;
    }
    const { bottle, cast, noCtd, clock } = readRow(table, row);
    if (noCtd !== undefined) leftOut.push({ line: row.line, why: noCtd });
    if (!clock) timeless++;
    bottles.push(bottle);
    const earlier = casts.get(cast.id);
    if (earlier === undefined || (cast.start ?? "~") < (earlier.start ?? "~"))
      casts.set(cast.id, cast);
  }
  if (bottles.length === 0) {
    throw new BadInput(
      leftOut.map(({ line, why }) => ({
        file,
        line,
        found: why,
        expected: "a bottle with station, cast and pressure",
        mend: "Check that the rows stand under their names.",
      })),
    );
  }
  const notes = [
    "the file has no conductivity: it was rebuilt from the CTD's salinity, with any correction made to that",
    ...(temperatureScale(table) === "IPTS-68"
      ? ["CTDTMP was converted from IPTS-68 to ITS-90"]
      : []),
    ...(timeless > 0 ? [`TIME is missing in ${timeless} rows: their day begins at 00:00`] : []),
    ...table.notes,
  ];
  return readBottles(bottles, casts, { name: file, rows: table.rows.length, leftOut, notes });
}

/** The reason why a row is not a bottle; undefined if it is. */
function whyNot(table: ExchangeTable, row: TableRow): string | undefined {
  const ragged = raggedness(row.cells, table.head.cells.length);
  if (ragged !== undefined) return ragged;
  const { text, number } = exchangeRow(table, row);
  const odd = measured.find((name) => number(name) === undefined);
  if (odd !== undefined) return `${odd} is ${quoted(text(odd))}, not a number`;
  if (text("STNNBR") === "" || text("CASTNO") === "") return "no station or no cast";
  if (castIdFault(exchangeCastId(text("STNNBR"), text("CASTNO"))) !== undefined)
    return "a station or cast with control characters or a change of text direction";
  return isPressure(number("CTDPRS")!) ? undefined : "no pressure at closure";
}

function readRow(table: ExchangeTable, row: TableRow) {
  const { text, number } = exchangeRow(table, row);
  const known = (name: string) => ifKnown(number(name) ?? Number.NaN);
  const label = ["BTLNBR", "SAMPNO"].map(text).find((name) => !Number.isNaN(numberCell(name) ?? 0));
  const [pressure_dbar, temperature, ctdSalinity, salinity] = measured.map((name) => number(name)!);
  const temperature_C =
    temperatureScale(table) === "IPTS-68" ? t90FromT68(temperature!) : temperature!;
  const conductivity_mS_cm = cFromSp(ctdSalinity!, temperature_C, pressure_dbar!);
  const flag = known("CTDSAL_FLAG_W");
  const flagged = flag !== undefined && badCtdFlags.includes(flag);
  const readings = Number.isFinite(conductivity_mS_cm) && !flagged;
  const id = exchangeCastId(text("STNNBR"), text("CASTNO"));
  return {
    bottle: present<Bottle>({
      cast: id,
      bottle: label ?? "?",
      pressure_dbar: pressure_dbar!,
      salinity: salinity!,
      closureTime: isClock(text("BTL_TIME"))
        ? exchangeTime(text("BTL_DATE"), text("BTL_TIME"))
        : undefined,
      flag: known("SALNTY_FLAG_W"),
      bottleFlag: known("BTLNBR_FLAG_W"),
      ctd: readings ? { primary: { temperature_C, conductivity_mS_cm } } : undefined,
      line: row.line,
    }),
    cast: present<CruiseCast>({
      id,
      start: exchangeTime(text("DATE"), text("TIME")),
      latitude: known("LATITUDE"),
      longitude: known("LONGITUDE"),
    }),
    noCtd: flagged
      ? `CTDSAL_FLAG_W is ${flag}: the bottle is kept, the CTD's reading is not`
      : readings
        ? undefined
        : "CTDTMP or CTDSAL is missing: the bottle is kept without the CTD's reading",
    clock: isClock(text("TIME")),
  };
}
