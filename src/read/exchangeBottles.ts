// WHP-Exchange bottle files (hy1): the CTD's values stand beside the laboratory's, so one file is a whole cruise.
import type { Bottle } from "../cast/bottle.js";
import type { CruiseCast, LeftOutRow } from "../cast/cruise.js";
import { cFromSp } from "../seawater/index.js";
import { BadInput } from "./badInput.js";
import type { ReadBottles } from "./bottlesCsv.js";
import {
  type ExchangeTable,
  exchangeCastId,
  exchangeRow,
  exchangeTime,
  readExchange,
} from "./exchange.js";
import { present } from "./present.js";

const wanted = ["STNNBR", "CASTNO", "CTDPRS", "CTDTMP", "CTDSAL", "SALNTY"];
/** WOCE flags of a CTD value that is not to be used: questionable, bad, not reported, not sampled. */
const badCtdFlags = [3, 4, 5, 9];

/** @throws BadInput where the text is no bottle file or has not the columns that a comparison needs */
export function readExchangeBottles(
  text: string,
  { file }: { readonly file: string },
): ReadBottles {
  const table = readExchange(text, "BOTTLE", file);
  const absent = wanted.filter((name) => !table.names.includes(name));
  if (absent.length > 0) {
    throw new BadInput(
      absent.map((name) => ({
        file,
        line: 0,
        column: name,
        found: "no such parameter",
        expected: `${name}: the CTD and the laboratory must both be there to be compared`,
        mend: "Use the bottle file that holds CTD values and salinities.",
      })),
    );
  }
  const bottles: Bottle[] = [];
  const casts = new Map<string, CruiseCast>();
  const leftOut: LeftOutRow[] = [];
  for (const { line, cells } of table.rows) {
    const read = bottleOf(table, line, cells);
    if ("why" in read) {
      leftOut.push({ line, why: read.why });
      continue;
    }
    bottles.push(read.bottle);
    const earlier = casts.get(read.cast.id);
    if (earlier?.start === undefined || (read.cast.start ?? "z") < earlier.start) {
      casts.set(read.cast.id, read.cast);
    }
  }
  return {
    bottles,
    casts: [...casts.values()],
    input: {
      name: file,
      role: "bottles",
      rows: table.rows.length,
      leftOut,
      notes: [
        "the file holds no conductivity: it was rebuilt from the CTD's salinity, with whatever was done to that",
        ...table.notes,
      ],
    },
  };
}

function bottleOf(table: ExchangeTable, line: number, cells: readonly string[]) {
  if (cells.length !== table.names.length) {
    return { why: `${cells.length} cells under ${table.names.length} names` };
  }
  const { text, number } = exchangeRow(table, cells);
  const values = ["CTDPRS", "CTDTMP", "CTDSAL", "SALNTY"].map((name) => ({
    name,
    value: number(name),
  }));
  const odd = values.find(({ value }) => value === undefined);
  if (odd !== undefined)
    return { why: `${odd.name} is ${JSON.stringify(text(odd.name))}, not a number` };
  const [pressure_dbar, temperature_C, ctdSalinity, salinity] = values.map(
    ({ value }) => value!,
  ) as [number, number, number, number];
  if (Number.isNaN(pressure_dbar)) return { why: "no pressure at closure" };
  const id = exchangeCastId(text("STNNBR"), text("CASTNO"));
  const flag = (name: string) => {
    const value = table.names.includes(name) ? number(name) : undefined;
    return value === undefined || Number.isNaN(value) ? undefined : value;
  };
  const usable = !badCtdFlags.includes(flag("CTDSAL_FLAG_W") ?? 2) && Number.isFinite(ctdSalinity);
  const conductivity_mS_cm = cFromSp(ctdSalinity, temperature_C, pressure_dbar);
  const position = (name: string) => {
    const value = number(name);
    return value === undefined || Number.isNaN(value) ? undefined : value;
  };
  return {
    bottle: present<Bottle>({
      cast: id,
      bottle: text("BTLNBR") || text("SAMPNO") || "?",
      pressure_dbar,
      salinity,
      flag: flag("SALNTY_FLAG_W"),
      bottleFlag: flag("BTLNBR_FLAG_W"),
      ctd:
        usable && Number.isFinite(conductivity_mS_cm)
          ? { primary: { temperature_C, conductivity_mS_cm } }
          : undefined,
      line,
    }),
    cast: present<CruiseCast>({
      id,
      start: exchangeTime(text("DATE"), text("TIME")),
      latitude: position("LATITUDE"),
      longitude: position("LONGITUDE"),
    }),
  };
}
