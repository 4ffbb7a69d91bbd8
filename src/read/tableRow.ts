// One row of a table: its cells, and its line in the file.

export interface TableRow {
  /** Line in the file, from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

/** A record as returned by csv-parse with `info`. */
export interface ParsedRecord {
  readonly record: readonly string[];
  readonly info: { readonly lines: number };
}

export function tableRow({ record, info }: ParsedRecord): TableRow {
  return { line: info.lines, cells: record };
}

/** The opposite of a ragged row, and how to mend one. */
export const raggedMend = {
  expected: "one cell for each heading",
  mend: "Add the missing cell in its place, blank if need be. Put a text that holds a comma in quotes.",
} as const;

/**
 * The reason why a row cannot be read by its headings; undefined if it can. Blank cells after the last heading are allowed.
 */
export function raggedness(cells: readonly string[], headings: number): string | undefined {
  if (cells.length === headings) return undefined;
  if (cells.length > headings && cells.slice(headings).every((cell) => cell === "")) {
    return undefined;
  }
  return `${cells.length} cells under ${headings} headings`;
}
