// Text with comma-separated cells as headings and rows with line numbers [Shafranovich2005]. One reader for all tables; its
// browser build needs no Buffer.
import { type Options, parse } from "csv-parse/browser/esm/sync";
import { BadInput, type Fault } from "./badInput.js";
import { checkedHeadings } from "./headings.js";
import { type TableForm, tableForm } from "./tableForm.js";
import { type ParsedRecord, type TableRow, tableRow } from "./tableRow.js";

export interface Table {
  readonly headings: readonly string[];
  readonly headingLine: number;
  readonly rows: readonly TableRow[];
  /** Assumptions about its form, in plain words. */
  readonly notes: readonly string[];
}

/**
 * Options for every table, in memory and streamed. The reader checks rows of another length than the headings. All line
 * ends are listed: if only the first one were detected, a file joined from two computers would lose rows.
 */
export const tableOptions = {
  bom: true,
  comment: "#",
  comment_no_infix: true,
  record_delimiter: ["\r\n", "\n", "\r"],
  relax_column_count: true,
  skip_empty_lines: true,
  trim: true,
} satisfies Options;

/** Number of characters needed to recognise the form of a table. */
const headLength = 65_536;

/** @throws BadInput if the text is not a table: empty, an unclosed quote, repeated headings */
export function readTable(text: string, file: string): Table {
  const form = tableForm(text.slice(0, headLength), [], text.length <= headLength);
  const [head, ...all] = parseRecords(text, file, form);
  if (head === undefined) throw new BadInput([emptyFault(file)]);
  const headings = checkedHeadings(head, file);
  if (form.units === undefined) {
    return { headings, headingLine: head.line, rows: all, notes: form.notes };
  }
  const notes = [...form.notes, "a line of units below the headings was skipped"];
  return { headings, headingLine: head.line, rows: all.slice(1), notes };
}

function parseRecords(text: string, file: string, form: TableForm): readonly TableRow[] {
  // Nearly every table of numbers is without quotes, and the parser's browser build takes ten times as long for it.
  if (!text.includes('"')) return plainRows(text, form);
  const earlier = form.headingLine - 1;
  const rest = withoutLines(text, earlier);
  const options = { ...tableOptions, delimiter: form.separator, info: true };
  try {
    return (parse(rest, options) as unknown as ParsedRecord[]).map((record) => {
      const { line, cells } = tableRow(record);
      return { line: earlier + line, cells: pointed(cells, form) };
    });
  } catch (error) {
    throw tableFault(error, file, earlier + lastWholeLine(rest, options), earlier);
  }
}

/** The text after this many lines. */
function withoutLines(text: string, count: number): string {
  const ends = /\r\n|\n|\r/g;
  for (let k = 0; k < count; k++) ends.exec(text);
  return text.slice(count === 0 ? 0 : ends.lastIndex);
}

/** The rows of a text without quotes; a test compares them with those of the parser. */
export function plainRows(
  text: string,
  form: Pick<TableForm, "separator" | "decimal" | "headingLine">,
): readonly TableRow[] {
  const rows: TableRow[] = [];
  const lines = text.replace(/^\ufeff/, "").split(/\r\n|\n|\r/);
  for (let i = form.headingLine - 1; i < lines.length; i++) {
    const line = lines[i]!.trim();
    if (line === "" || line.startsWith("#")) continue;
    rows.push({ line: i + 1, cells: plainCells(line, form) });
  }
  return rows;
}

/** The cells of a line without quotes; decimal commas are replaced by points. */
export function plainCells(
  line: string,
  { separator, decimal }: Pick<TableForm, "separator" | "decimal">,
): readonly string[] {
  const cells =
    separator === " " ? line.trim().split(/ +/) : line.split(separator).map((cell) => cell.trim());
  return pointed(cells, { decimal });
}

/** The cells with decimal commas replaced by points, if the table uses commas. */
export function pointed(
  cells: readonly string[],
  { decimal }: Pick<TableForm, "decimal">,
): readonly string[] {
  if (decimal === ".") return cells;
  return cells.map((cell) =>
    /^[+-]?\d*,\d+([eE][+-]?\d+)?$/.test(cell) ? cell.replace(",", ".") : cell,
  );
}

/** The line of the last record before the text stops being a table. */
export function lastWholeLine(text: string, options: Options): number {
  let last = 0;
  try {
    parse(text, {
      ...options,
      info: false,
      on_record: (_, { lines }) => {
        last = lines;
        return null;
      },
    });
  } catch {
    return last;
  }
  return last;
}

/**
 * An error of csv-parse as ours; any other error is returned unchanged.
 * @param lastWhole line of the last row that was read completely
 * @param earlier   number of lines before the parsed text
 */
export function tableFault(error: unknown, file: string, lastWhole: number, earlier = 0): unknown {
  if (!isParseFault(error)) return error;
  const open = error.code === "CSV_QUOTE_NOT_CLOSED";
  return new BadInput([
    {
      file,
      // An open quote is noticed at the end of the text: it began after the last complete row.
      line: open ? lastWhole + 1 : earlier + error.lines,
      ...(typeof error.column === "number" ? { column: String(error.column + 1) } : {}),
      found: open ? "a quote that is never closed" : "a quote in the wrong place",
      expected: "cells in quotes from end to end, or without any",
      mend: 'Close the quote or take it out; a quote within a cell in quotes is written "".',
    },
  ]);
}

interface ParseFault {
  readonly code: string;
  readonly lines: number;
  readonly column?: number | string;
}

function isParseFault(error: unknown): error is ParseFault {
  return (
    error instanceof Error &&
    "code" in error &&
    "lines" in error &&
    typeof error.lines === "number" &&
    /^(CSV_|INVALID_)/.test(String(error.code))
  );
}

export function emptyFault(file: string): Fault {
  return {
    file,
    line: 0,
    found: "nothing",
    expected: "a line of headings and rows below it",
    mend: "Check that the file was written to its end.",
  };
}
