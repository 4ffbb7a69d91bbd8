// WHP-Exchange CTD files (ct1): averages of one leg, salinity only; conductivity is rebuilt by the inverse.
import { BadInput } from "./badInput.js";
import { castBuilder, type ReadCast } from "./castBuilder.js";
import { exchangeCastId, exchangeTime, readExchange } from "./exchange.js";

const badFlags = ["3", "4", "5", "9"];

/** @throws BadInput where the text is no CTD file or lacks pressure, temperature or salinity */
export function readExchangeCast(text: string, { file }: { readonly file: string }): ReadCast {
  const { names, rows, headers, notes } = readExchange(text, "CTD", file);
  const { STNNBR, CASTNO, DATE, TIME, LATITUDE, LONGITUDE } = headers;
  if (STNNBR === undefined || CASTNO === undefined) {
    throw new BadInput([
      {
        file,
        line: 0,
        column: STNNBR === undefined ? "STNNBR" : "CASTNO",
        found: "no such header",
        expected: "STNNBR and CASTNO, which say whose cast this is",
        mend: "Write the missing header as NAME = value.",
      },
    ]);
  }
  const degrees = (value: string | undefined) =>
    Number.isFinite(Number(value ?? "x")) ? Number(value) : undefined;
  const [start, latitude, longitude] = [
    exchangeTime(DATE ?? "", TIME ?? ""),
    degrees(LATITUDE),
    degrees(LONGITUDE),
  ];
  const builder = castBuilder(
    { cells: names, line: 0 },
    {
      id: exchangeCastId(STNNBR, CASTNO),
      file,
      mapping: { pressure_dbar: "CTDPRS", temperature_C: "CTDTMP", salinity: "CTDSAL" },
      ...(start === undefined ? {} : { start }),
      ...(latitude === undefined ? {} : { latitude }),
      ...(longitude === undefined ? {} : { longitude }),
    },
  );
  // A value flagged questionable or bad is no value.
  const flagged = ["CTDTMP", "CTDSAL"].map(
    (name) => [names.indexOf(name), names.indexOf(`${name}_FLAG_W`)] as const,
  );
  for (const { line, cells } of rows) {
    const kept = [...cells];
    for (const [value, flag] of flagged) if (badFlags.includes(cells[flag] ?? "")) kept[value] = "";
    builder.push({ line, cells: kept });
  }
  const { cast, input } = builder.finish();
  return { cast, input: { ...input, notes: [...input.notes, ...notes] } };
}
