// Repeated rows.
import type { TableRow } from "./tableRow.js";

/** Rows that repeat an earlier one cell by cell, for instance after pasting a table twice; with the line of the first. */
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
