// Rows that stand twice.
import type { TableRow } from "./tableRow.js";

/** Rows that repeat an earlier one cell by cell, as where a table was pasted twice; with the line of the first. */
export function repeatedRows(rows: readonly TableRow[]): ReadonlyMap<TableRow, number> {
  const first = new Map<string, number>();
  const repeated = new Map<TableRow, number>();
  for (const row of rows) {
    const key = JSON.stringify(row.cells);
    const line = first.get(key);
    if (line === undefined) first.set(key, row.line);
    else repeated.set(row, line);
  }
  return repeated;
}
