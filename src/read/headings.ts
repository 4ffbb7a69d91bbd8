// Check a line of headings before the rows below it are read.
import { BadInput, quoted } from "./badInput.js";
import type { TableRow } from "./tableRow.js";

const otherSeparators = { ";": "semicolons", "\t": "tabs", " ": "blanks" } as const;

/**
 * @returns the headings
 * @throws BadInput if a heading is repeated, or the separator is not the comma
 */
export function checkedHeadings({ cells, line }: TableRow, file: string): readonly string[] {
  const sign = ([";", "\t", " "] as const).find((s) => cells.length === 1 && cells[0]!.includes(s));
  if (sign !== undefined) {
    throw new BadInput([
      {
        file,
        line,
        found: `${quoted(cells[0])}: ${otherSeparators[sign]} between the headings`,
        expected: "commas between the cells",
        mend: "Write the file again with commas as separators and points before the decimals.",
      },
    ]);
  }
  const seen = new Set<string>();
  const repeated = new Set<string>();
  for (const name of cells) {
    if (name !== "" && seen.has(name)) repeated.add(name);
    seen.add(name);
  }
  if (repeated.size === 0) return cells;
  throw new BadInput(
    [...repeated].map((name) => ({
      file,
      line,
      column: name,
      found: "the heading more than once",
      expected: "each heading once",
      mend: "Rename or remove one of the columns.",
    })),
  );
}

/** @throws BadInput with every required heading that is missing */
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
      found: `no such heading among ${someHeadings(headings)}`,
      expected: `a column ${name}`,
      mend: `Name the column ${name}.`,
    })),
  );
}

/** The first headings, for a message. */
export function someHeadings(headings: readonly string[]): string {
  return `${headings.slice(0, 12).join(", ").slice(0, 300)}${headings.length > 12 ? ", ..." : ""}`;
}
