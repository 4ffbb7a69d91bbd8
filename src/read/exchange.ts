// Common parts of the bottle and CTD files of WHP-Exchange [CCHDO2022]: a first line with the type of file, comments, a
// line of names, a line of units, data, END_DATA. Old files are read with a note on their faults.
import { BadInput, quoted } from "./badInput.js";
import { checkedHeadings } from "./headings.js";
import { numberCell } from "./numberCell.js";
import type { TableRow } from "./tableRow.js";
import { timeCell } from "./timeCell.js";

export interface ExchangeTable {
  /** Parameter names, and their line in the file. */
  readonly head: TableRow;
  readonly units: readonly string[];
  readonly rows: readonly TableRow[];
  /** `NAME = value` lines of a CTD file. */
  readonly headers: ReadonlyMap<string, string>;
  readonly notes: readonly string[];
}

/** WOCE flags of a CTD value that must not be used: questionable, bad, not reported, not sampled. */
export const badCtdFlags = [3, 4, 5, 9];

/**
 * @param kind the first bytes of the file
 * @throws BadInput if the text is not such a file, or has no line of names or no rows
 */
export function readExchange(text: string, kind: "CTD" | "BOTTLE", file: string): ExchangeTable {
  const fault = (line: number, found: string, expected: string, mend: string) =>
    new BadInput([{ file, line, found, expected, mend }]);
  const lines = text.replace(/^\ufeff/, "").split(/\r\n|\n|\r/);
  if (!lines[0]!.startsWith(kind)) {
    throw fault(
      1,
      quoted(lines[0]),
      `${kind} as the first bytes`,
      `Check that this is a WHP-Exchange ${kind} file.`,
    );
  }
  const notes: string[] = [];
  let at = 1;
  const skip = () => {
    while (at < lines.length && isVoid(lines[at]!)) at++;
  };
  skip();
  const headers = new Map<string, string>();
  if (kind === "CTD") {
    while (at < lines.length && lines[at]!.includes("=")) {
      const sign = lines[at]!.indexOf("=");
      headers.set(lines[at]!.slice(0, sign).trim(), lines[at]!.slice(sign + 1).trim());
      at++;
      skip();
    }
    // The number counts its own line [CCHDO2022], but is often written without it, so the lines themselves decide.
    const counted = headers.get("NUMBER_HEADERS");
    if (counted !== undefined && Number(counted) !== headers.size) {
      notes.push(`NUMBER_HEADERS says ${counted}, there are ${headers.size} with its own line`);
    }
  }
  const head = { line: at + 1, cells: cellsOf(lines[at] ?? "") };
  if (head.cells.length < 2) {
    throw fault(
      at + 1,
      quoted(lines[at]),
      "a line of parameter names",
      "Check that the file was written to its end.",
    );
  }
  checkedHeadings(head, file);
  const units = cellsOf(lines[at + 1] ?? "");
  const rows: TableRow[] = [];
  let ended = false;
  for (let i = at + 2; i < lines.length && !ended; i++) {
    const line = lines[i]!;
    ended = line.trim() === "END_DATA";
    if (!ended && !isVoid(line)) rows.push({ line: i + 1, cells: cellsOf(line) });
    if (ended) notes.push(...behindEnd(lines, i + 1, head.cells.length, file));
  }
  if (rows.length === 0) {
    throw fault(
      at + 2,
      "names and units and no row",
      "rows of data",
      "Check that the file was written to its end.",
    );
  }
  if (!ended) notes.push("END_DATA is missing: the file may have been cut short");
  return { head, units, rows, headers, notes };
}

/** A blank line or a comment. */
function isVoid(line: string): boolean {
  const text = line.trimStart();
  return text === "" || text.startsWith("#");
}

/**
 * A note on text after END_DATA.
 * @throws BadInput if that text is data, because half a cast would be taken for the whole
 */
function behindEnd(
  lines: readonly string[],
  from: number,
  headings: number,
  file: string,
): readonly string[] {
  const rest = lines.slice(from).filter((line) => !isVoid(line));
  if (rest.length === 0) return [];
  const data = rest.filter((line) => cellsOf(line).length === headings);
  if (data.length > 0) {
    throw new BadInput([
      {
        file,
        line: from,
        found: `END_DATA with ${data.length} rows of data after it`,
        expected: "END_DATA after the last row",
        mend: "Remove this END_DATA, or put the data after it into a file of its own.",
      },
    ]);
  }
  return [`${rest.length} lines after END_DATA were not read`];
}

/** White space is ignored [CCHDO2022]; old files have a comma at the end of the line. */
function cellsOf(line: string): readonly string[] {
  return line.split(",").map((cell) => cell.trim());
}

/** @throws BadInput with the required parameters that are missing */
export function requireParameters(
  { head }: ExchangeTable,
  wanted: readonly string[],
  file: string,
): void {
  const absent = wanted.filter((name) => !head.cells.includes(name));
  if (absent.length === 0) return;
  throw new BadInput(
    absent.map((name) => ({
      file,
      line: head.line,
      column: name,
      found: "no such parameter",
      expected: `a column ${name}`,
      mend: "Use the file with pressure, temperature and salinity of the CTD. A bottle file needs the laboratory salinity too.",
    })),
  );
}

/** Reads one row by name: text, or a number with -999 as NaN and undefined if it is not a number. */
export function exchangeRow({ head }: ExchangeTable, { cells }: TableRow) {
  const text = (name: string): string => cells[head.cells.indexOf(name)] ?? "";
  return { text, number: (name: string): number | undefined => numberCell(text(name)) };
}

/** The scale that the unit line gives for CTDTMP: files from before 1990 say IPTS-68. */
export function temperatureScale({ head, units }: ExchangeTable): "ITS-90" | "IPTS-68" {
  return /68/.test(units[head.cells.indexOf("CTDTMP")] ?? "") ? "IPTS-68" : "ITS-90";
}

/** DATE YYYYMMDD and TIME HHMM as ISO 8601 UTC, midnight without TIME; undefined without a date. */
export function exchangeTime(date: string, time: string): string | undefined {
  const [, year, month, day] = /^(\d{4})(\d{2})(\d{2})$/.exec(date) ?? [];
  if (year === undefined) return undefined;
  // A spreadsheet removes leading zeros.
  const clock = isClock(time) ? time.padStart(4, "0") : "0000";
  return timeCell(`${year}-${month}-${day}T${clock.slice(0, 2)}:${clock.slice(2)}Z`) ?? undefined;
}

/** Whether a TIME is a time of day. */
export function isClock(time: string): boolean {
  return /^\d{1,4}$/.test(time);
}

/** Station and cast as one id; both may be text. */
export function exchangeCastId(station: string, cast: string): string {
  return `${station}/${cast}`;
}
