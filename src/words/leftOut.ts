// Excluded evidence of a cast, each item once, with the cell that it concerns.
import { group } from "d3-array";
import type { CellName } from "../cast/cast.js";
import type { Verdict } from "../verdict/verdict.js";

interface LeftOutItem {
  readonly line: string;
  /** The cell or cells; absent for a line that compares the two cells. */
  readonly cell?: CellName | "both";
  readonly what: string;
  readonly why: string;
}

export function leftOutOf({ evidence }: Verdict): readonly LeftOutItem[] {
  const all = evidence.flatMap(({ line, cell, leftOut }) =>
    leftOut.map(({ what, why }) => ({ line, cell, what, why })),
  );
  const alike = group(all, ({ line, what, why }) => JSON.stringify([line, what, why]));
  return [...alike.values()].map((same) => {
    const cells = new Set(same.map(({ cell }) => cell));
    const { cell, ...item } = same[0]!;
    if (cells.size > 1) return { ...item, cell: "both" };
    return cell === "both" ? item : { ...item, cell };
  });
}

/** "legs, primary cell: 2 of 718 thin layers: the temperature does not occur on the other leg". */
export function leftOutWords(verdict: Verdict): readonly string[] {
  return leftOutOf(verdict).map(
    ({ line, cell, what, why }) =>
      `${line}${cell === undefined ? "" : `, ${cell} ${cell === "both" ? "cells" : "cell"}`}: ${what}: ${why}`,
  );
}
