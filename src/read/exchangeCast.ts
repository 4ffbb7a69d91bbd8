// WHP-Exchange CTD files (ct1): averages of one leg, salinity only; conductivity is computed from salinity.
import { BadInput } from "./badInput.js";
import { type CastFacts, castBuilder, type ReadCast } from "./castBuilder.js";
import {
  badCtdFlags,
  exchangeCastId,
  exchangeTime,
  isClock,
  readExchange,
  requireParameters,
  temperatureScale,
} from "./exchange.js";
import { numberCell } from "./numberCell.js";
import { present } from "./present.js";
import { ifKnown } from "./rowReader.js";

const measured = ["CTDPRS", "CTDTMP", "CTDSAL"] as const;

/**
 * Read a cast from text.
 * @param text  a WHP-Exchange CTD file [CCHDO2022]; values flagged 3, 4, 5 or 9 are taken as missing
 * @param facts the file's name, and facts about the cast, which replace those in the file; without an id it is
 *   `STNNBR/CASTNO`
 * @throws BadInput if the text is not a CTD file or lacks station, cast, pressure, temperature or salinity
 */
export function readExchangeCast(
  text: string,
  facts: Partial<CastFacts> & { readonly file: string },
): ReadCast {
  const { file } = facts;
  const table = readExchange(text, "CTD", file);
  const { head, headers, notes } = table;
  requireParameters(table, measured, file);
  const [station, cast] = ["STNNBR", "CASTNO"].map((name) => headers.get(name));
  if (facts.id === undefined && (station === undefined || cast === undefined)) {
    throw new BadInput([
      {
        file,
        line: 0,
        column: station === undefined ? "STNNBR" : "CASTNO",
        found: "no such header",
        expected: "STNNBR and CASTNO, which say whose cast this is",
        mend: "Write the missing header as NAME = value.",
      },
    ]);
  }
  const degrees = (name: string) => ifKnown(numberCell(headers.get(name)) ?? Number.NaN);
  const time = headers.get("TIME") ?? "";
  const builder = castBuilder(
    head,
    present<CastFacts>({
      start: exchangeTime(headers.get("DATE") ?? "", time),
      latitude: degrees("LATITUDE"),
      longitude: degrees("LONGITUDE"),
      id: exchangeCastId(station ?? "", cast ?? ""),
      ...facts,
      mapping: { pressure_dbar: "CTDPRS", temperature_C: "CTDTMP", salinity: "CTDSAL" },
      temperatureScale: temperatureScale(table),
    }),
  );
  const flagged = measured.flatMap((name) => {
    const flag = head.cells.indexOf(`${name}_FLAG_W`);
    return flag < 0 ? [] : [{ value: head.cells.indexOf(name), flag }];
  });
  let barred = 0;
  for (const { line, cells } of table.rows) {
    const kept = [...cells];
    for (const { value, flag } of flagged) {
      if (!badCtdFlags.includes(numberCell(cells[flag]) ?? Number.NaN)) continue;
      if (!Number.isNaN(numberCell(cells[value]) ?? 0)) barred++;
      kept[value] = "";
    }
    builder.push({ line, cells: kept });
  }
  const read = builder.finish();
  const said = [
    ...read.input.notes,
    ...(barred > 0 ? [`${barred} values flagged questionable or bad were taken as missing`] : []),
    ...(read.cast.start !== undefined && facts.start === undefined && !isClock(time)
      ? ["TIME is missing: the day begins at 00:00"]
      : []),
    ...notes,
  ];
  return { cast: read.cast, input: { ...read.input, notes: said } };
}
