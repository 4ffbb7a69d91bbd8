// Text with comma-separated cells as headings and rows that know their lines. One reader for all tables; its
// browser build needs no Buffer.
import { CsvError, type Options, parse } from "csv-parse/browser/esm/sync";
import { BadInput, type Fault } from "./badInput.js";

export interface TableRow {
  /** Line in the file, from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

export interface Table {
  readonly headings: readonly string[];
  readonly headingLine: number;
  readonly rows: readonly TableRow[];
}

/** How every table is read, here and in a stream. Rows of another length than the headings are judged by the reader. */
export const tableOptions = {
  bom: true,
  comment: "#",
  comment_no_infix: true,
  info: true,
  relax_column_count: true,
  skip_empty_lines: true,
  trim: true,
} as const satisfies Options;

/** @throws BadInput where the text is no table: empty, a quote never closed, headings that repeat */
export function readTable(text: string, file: string): Table {
  const records = parseRecords(text, file);
  const [head, ...rows] = records;
  if (head === undefined) throw new BadInput([emptyFault(file)]);
  checkHeadings(head, file);
  return { headings: head.cells, headingLine: head.line, rows };
}

function parseRecords(text: string, file: string): readonly TableRow[] {
  try {
    const parsed = parse(text, tableOptions) as unknown as readonly ParsedRecord[];
    return parsed.map(tableRow);
  } catch (error) {
    throw tableFault(error, file);
  }
}

/** A record as csv-parse gives it with `info`. */
export interface ParsedRecord {
  readonly record: readonly string[];
  readonly info: { readonly lines: number };
}

export function tableRow({ record, info }: ParsedRecord): TableRow {
  return { line: info.lines, cells: record };
}

/** What csv-parse found wrong, as ours; anything else is thrown on. */
export function tableFault(error: unknown, file: string): unknown {
  if (
    !(error instanceof CsvError) &&
    !(error instanceof Error && "code" in error && "lines" in error)
  ) {
    return error;
  }
  const { lines } = error as unknown as { readonly lines?: number };
  return new BadInput([
    {
      file,
      line: typeof lines === "number" ? lines : 0,
      found: "a table that breaks off or is wrongly quoted",
      expected: "comma-separated cells, quotes closed",
      mend: `Close the quote or take it out (${error.message.split(":")[0]}).`,
    },
  ]);
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

/** @throws BadInput where a heading stands twice */
export function checkHeadings({ cells, line }: TableRow, file: string): void {
  const repeated = cells.filter((name, i) => name !== "" && cells.indexOf(name) !== i);
  if (repeated.length === 0) return;
  throw new BadInput(
    [...new Set(repeated)].map((name) => ({
      file,
      line,
      column: name,
      found: "the heading more than once",
      expected: "each heading once",
      mend: "Rename or remove one of the columns.",
    })),
  );
}

/** @throws BadInput naming every heading that is wanted and not there */
export function requireHeadings(
  headings: readonly string[],
  wanted: readonly string[],
  file: string,
  line: number,
): void {
  const absent = wanted.filter((name) => !headings.includes(name));
  if (absent.length === 0) return;
  throw new BadInput(
    absent.map((name) => ({
      file,
      line,
      column: name,
      found: `no such heading among ${headings.slice(0, 12).join(", ")}${headings.length > 12 ? ", ..." : ""}`,
      expected: `a column ${name}`,
      mend: "Rename the column, or map the name to your heading in cruise.json.",
    })),
  );
}
