// What bottle and CTD files of WHP-Exchange have in common [CCHDOExchange]: a first line that says which it is,
// comments, a line of names, a line of units, data, END_DATA.
import { BadInput } from "./badInput.js";
import { numberCell } from "./numberCell.js";

export interface ExchangeTable {
  readonly names: readonly string[];
  readonly units: readonly string[];
  readonly rows: readonly { readonly line: number; readonly cells: readonly string[] }[];
  /** `NAME = value` lines of a CTD file. */
  readonly headers: Readonly<Record<string, string>>;
  readonly notes: readonly string[];
}

/** Whether text is of this kind, by its first bytes. */
export function isExchange(text: string, kind: "CTD" | "BOTTLE"): boolean {
  return text.replace(/^\ufeff/, "").startsWith(kind);
}

/** @throws BadInput where the text is not such a file or has no line of names */
export function readExchange(text: string, kind: "CTD" | "BOTTLE", file: string): ExchangeTable {
  if (!isExchange(text, kind)) {
    throw new BadInput([
      {
        file,
        line: 1,
        found: JSON.stringify(text.slice(0, 20)),
        expected: `${kind} as the first bytes`,
        mend: "Check that this is a WHP-Exchange file of that kind.",
      },
    ]);
  }
  const lines = text.split(/\r?\n/);
  const notes: string[] = [];
  let at = 1;
  const skipComments = () => {
    while (at < lines.length && (lines[at]!.startsWith("#") || lines[at]!.trim() === "")) at++;
  };
  skipComments();
  const headers: Record<string, string> = {};
  if (kind === "CTD") at = readHeaders(lines, at, headers, notes);
  skipComments();
  const names = cellsOf(lines[at]);
  if (names.length < 2) {
    throw new BadInput([
      {
        file,
        line: at + 1,
        found: JSON.stringify((lines[at] ?? "").slice(0, 40)),
        expected: "a line of parameter names",
        mend: "Check that the file was written to its end.",
      },
    ]);
  }
  const units = cellsOf(lines[at + 1]);
  const rows: { line: number; cells: readonly string[] }[] = [];
  let ended = false;
  for (let i = at + 2; i < lines.length; i++) {
    const line = lines[i]!;
    if (line.trim() === "END_DATA") {
      ended = true;
      break;
    }
    if (line.trim() !== "") rows.push({ line: i + 1, cells: cellsOf(line) });
  }
  if (!ended) notes.push("END_DATA is missing: the file may have been cut short");
  return { names, units, rows, headers, notes };
}

/** NUMBER_HEADERS counts itself; old files leave it out of the count, so the `=` decides. */
function readHeaders(
  lines: readonly string[],
  from: number,
  headers: Record<string, string>,
  notes: string[],
): number {
  let at = from;
  while (at < lines.length && lines[at]!.includes("=")) {
    const [name, ...value] = lines[at]!.split("=");
    headers[name!.trim()] = value.join("=").trim();
    at++;
  }
  const counted = Number(headers.NUMBER_HEADERS);
  if (Number.isFinite(counted) && counted !== at - from) {
    notes.push(`NUMBER_HEADERS says ${counted}, there are ${at - from} counting itself`);
  }
  return at;
}

function cellsOf(line: string | undefined): readonly string[] {
  return (line ?? "").split(",").map((cell) => cell.trim());
}

/** Reads one row by name: text, or a number with -999 as NaN. */
export function exchangeRow(table: ExchangeTable, cells: readonly string[]) {
  const text = (name: string): string => cells[table.names.indexOf(name)] ?? "";
  return {
    text,
    /** undefined where the cell is not a number. */
    number: (name: string): number | undefined => numberCell(text(name)),
  };
}

/** DATE YYYYMMDD and TIME HHMM as ISO 8601 UTC; undefined where there is no date. */
export function exchangeTime(date: string, time: string): string | undefined {
  const day = /^(\d{4})(\d{2})(\d{2})$/.exec(date.trim());
  if (day === null) return undefined;
  const clock = time.trim().padStart(4, "0");
  const [hours, minutes] = /^\d{4}$/.test(clock)
    ? [clock.slice(0, 2), clock.slice(2)]
    : ["00", "00"];
  const parsed = new Date(`${day[1]}-${day[2]}-${day[3]}T${hours}:${minutes}:00Z`);
  return Number.isNaN(parsed.getTime()) ? undefined : parsed.toISOString();
}

/** Station and cast as one id. */
export function exchangeCastId(station: string, cast: string): string {
  return `${station}/${cast}`;
}
