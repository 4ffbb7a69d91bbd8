import { existsSync, readFileSync } from "node:fs";

/** The number columns of a table of reference values, by name; comment lines start with #. */
export function gridFile(path: string): Record<string, Float64Array> {
  const lines = readFileSync(path, "utf8")
    .split("\n")
    .filter((line) => line !== "" && !line.startsWith("#"));
  const names = lines[0]!.split(",");
  const rows = lines.slice(1).map((line) => line.split(","));
  return Object.fromEntries(
    names.map((name, i) => [name, Float64Array.from(rows, (row) => Number(row[i]))]),
  );
}

/** The larger grid kept beside the repository; the fixture in it stands on its own. */
export const sharedGridPath = "../shared/reference/gsw-grid.csv";
export const sharedGridExists = existsSync(sharedGridPath);

/** Largest absolute difference of two columns; NaN where either holds one. */
export function largestDifference(found: ArrayLike<number>, expected: ArrayLike<number>): number {
  if (found.length !== expected.length) throw new RangeError("columns of different length");
  let largest = 0;
  for (let i = 0; i < found.length; i++) {
    const difference = Math.abs(found[i]! - expected[i]!);
    if (!(difference <= largest)) largest = difference;
  }
  return largest;
}
