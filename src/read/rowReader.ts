// Read a row of a table cell by cell by heading, and collect its faults.
import { type Fault, quoted } from "./badInput.js";
import { timeMend } from "./mends.js";
import { mendNumber, numberCell } from "./numberCell.js";
import type { Table } from "./table.js";
import { raggedMend, raggedness, type TableRow } from "./tableRow.js";
import { timeCell } from "./timeCell.js";

/** The cells of one row by heading; their faults are added to `faults`. */
export function rowReader(table: Table, { line, cells }: TableRow, file: string, faults: Fault[]) {
  const text = (heading: string): string | undefined => {
    const place = table.headings.indexOf(heading);
    const found = place < 0 ? undefined : cells[place]?.trim();
    return found === "" ? undefined : found;
  };
  const fault = (column: string, expected: string, mend: string) =>
    faults.push({ file, line, column, found: quoted(text(column)), expected, mend });
  const ragged = raggedness(cells, table.headings.length);
  if (ragged !== undefined) {
    // It is unknown which cell is missing, so no cell can be trusted to be under its heading.
    faults.push({
      file,
      line,
      found: ragged,
      ...raggedMend,
    });
  }
  return {
    text,
    fault,
    /** A word of a fixed list, in any letter case, with blanks or underscores for its hyphens. */
    word: (heading: string): string | undefined =>
      text(heading)
        ?.toLowerCase()
        .replace(/[\s_]+/g, "-"),
    /** NaN if there is none. */
    number(heading: string): number {
      const value = numberCell(text(heading));
      if (value === undefined) fault(heading, "a number", mendNumber(text(heading) ?? ""));
      return value ?? Number.NaN;
    },
    time(heading: string): string | undefined {
      const time = timeCell(text(heading));
      if (time === null) {
        fault(heading, ...timeMend);
      }
      return time ?? undefined;
    },
    /** yes, true, 1 or their opposites. */
    yesOrNo(heading: string): boolean | undefined {
      const word = text(heading)?.toLowerCase();
      if (word === undefined) return undefined;
      if (["yes", "y", "true", "1"].includes(word)) return true;
      if (["no", "n", "false", "0"].includes(word)) return false;
      fault(heading, "yes or no", "Write yes or no, or leave the cell blank.");
      return undefined;
    },
  };
}

/** Undefined for NaN: an unknown number is an absent key. */
export function ifKnown(value: number): number | undefined {
  return Number.isNaN(value) ? undefined : value;
}
