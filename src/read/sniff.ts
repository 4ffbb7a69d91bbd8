// What a file is, from its beginning: names mislead, content does not.
import { parse } from "csv-parse/browser/esm/sync";
import { BadInput } from "./badInput.js";
import { tableOptions } from "./table.js";

export type FileKind =
  | "exchange-bottles"
  | "exchange-cast"
  | "description"
  | "maintenance"
  | "bottles"
  | "cast"
  | "netcdf"
  | "packed"
  | "unknown";

/** @param head the first few thousand characters of a file, one a byte or decoded */
export function sniff(head: string): FileKind {
  const text = head.replace(/^(\ufeff|\u00ef\u00bb\u00bf)/, "");
  // NetCDF classic, and the HDF5 that newer ones are written in.
  const classic = text.startsWith("CDF") && text.charCodeAt(3) < 8;
  if (classic || text.slice(1, 4) === "HDF") return "netcdf";
  if (text.startsWith("PK\u0003\u0004") || text.startsWith("\u001f\u008b")) return "packed";
  // The stamp behind the word is one cell; a table whose first heading begins alike has more.
  const first = /^(BOTTLE|CTD)\s*(?:,[^,\r\n]*)?(?:[\r\n]|$)/.exec(text)?.[1];
  if (first !== undefined) return first === "CTD" ? "exchange-cast" : "exchange-bottles";
  if (/^\s*\{/.test(text)) return "description";
  if (/^\s*\[/.test(text)) return "maintenance";
  return kindOfTable(headingsOf(text));
}

function headingsOf(text: string): readonly string[] {
  try {
    return parse(text, { ...tableOptions, info: false, to: 1 })[0] ?? [];
  } catch {
    return [];
  }
}

function kindOfTable(headings: readonly string[]): FileKind {
  const has = (...names: readonly string[]) => names.every((name) => headings.includes(name));
  if (has("cast", "bottle")) return "bottles";
  if (has("action") && (has("time") || has("after_cast"))) return "maintenance";
  return has("pressure_dbar", "temperature_C") ? "cast" : "unknown";
}

/** @throws BadInput where the file is of a kind that is known and not read */
export function refuseForeign(kind: FileKind, file: string): void {
  if (kind !== "netcdf" && kind !== "packed") return;
  const netcdf = kind === "netcdf";
  throw new BadInput([
    {
      file,
      line: 0,
      found: netcdf ? "a NetCDF file" : "a packed file or a spreadsheet",
      expected: "text: CSV, WHP-Exchange or cruise.json",
      mend: netcdf
        ? "NetCDF is not read yet: write the cast as CSV."
        : "Unpack it, or save it as CSV.",
    },
  ]);
}
