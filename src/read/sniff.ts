// Recognise a file by its beginning: names mislead, content does not.
import { BadInput } from "./badInput.js";
import type { CastMapping, castColumnNames } from "./castColumnNames.js";
import { cellsOfLine, tableForm } from "./tableForm.js";
import { standardHeadings } from "./unitsRow.js";

export type FileKind =
  | "exchange-bottles"
  | "exchange-cast"
  | "description"
  | "maintenance"
  | "bottles"
  | "cast"
  | "netcdf"
  | "packed"
  | "utf-16"
  | "unknown";

/**
 * @param head    the first few thousand characters of a file, one a byte or decoded
 * @param mapping headings of casts that the user has named
 */
export function sniff(head: string, mapping: CastMapping = {}): FileKind {
  const text = head.replace(/^(\ufeff|\u00ef\u00bb\u00bf)/, "");
  if (/^(\u00ff\u00fe|\u00fe\u00ff)/.test(text)) return "utf-16";
  // NetCDF classic, and HDF5, the format of newer ones.
  const classic = text.startsWith("CDF") && text.charCodeAt(3) < 8;
  if (classic || text.slice(1, 4) === "HDF") return "netcdf";
  if (text.startsWith("PK\u0003\u0004") || text.startsWith("\u001f\u008b")) return "packed";
  // The stamp after the word is a single cell; a table whose first heading begins in the same way has more cells.
  const first = /^(BOTTLE|CTD)[ \t]*(?:,[^,\r\n]*)?(?:[\r\n]|$)/.exec(text)?.[1];
  if (first !== undefined) return first === "CTD" ? "exchange-cast" : "exchange-bottles";
  if (/^\s*\{/.test(text)) return "description";
  if (/^\s*\[/.test(text)) return "maintenance";
  return kindOfTable(text, mapping);
}

function kindOfTable(text: string, mapping: CastMapping): FileKind {
  const form = tableForm(text, Object.values(mapping), true);
  const line = text.split(/\r\n|\n|\r/, form.headingLine)[form.headingLine - 1] ?? "";
  const headings = cellsOfLine(line, form.separator);
  const has = (...names: readonly string[]) => names.every((name) => headings.includes(name));
  if (has("cast", "bottle")) return "bottles";
  if (has("action") && (has("time") || has("after_cast"))) return "maintenance";
  const named = (name: (typeof castColumnNames)[number]) =>
    has(mapping[name] ?? name) ||
    (form.units !== undefined &&
      mapping[name] === undefined &&
      has(standardHeadings[name] ?? name));
  return named("pressure_dbar") && named("temperature_C") ? "cast" : "unknown";
}

/** Whether a file with unknown headings is read as bottles, because it mentions them. */
export function hasBottleColumns(head: string): boolean {
  const form = tableForm(head, [], true);
  const line = head.split(/\r\n|\n|\r/, form.headingLine)[form.headingLine - 1] ?? "";
  const headings = cellsOfLine(line, form.separator);
  return headings.some((heading) => /^(cast|bottle|niskin|btl)/i.test(heading));
}

const foreign = {
  netcdf: {
    found: "a NetCDF file",
    mend: "NetCDF is read for casts: write anything else as CSV.",
  },
  packed: {
    found: "a packed file or a spreadsheet",
    mend: "Unpack it, or save it as CSV.",
  },
  "utf-16": {
    found: "text in UTF-16",
    mend: "Save it as UTF-8.",
  },
} as const;

/** @throws BadInput if the file is of a known kind that cannot be read */
export function refuseForeign(kind: FileKind, file: string): void {
  if (kind !== "netcdf" && kind !== "packed" && kind !== "utf-16") return;
  const expected = "text: CSV, WHP-Exchange or cruise.json";
  throw new BadInput([{ file, line: 0, expected, ...foreign[kind] }]);
}
