// The reasons why bottles were excluded, and the meaning of their scatter, in words.

import { leaveOutBeyond } from "./castFit.js";
import { type CellComparison, isErratic, type Judged } from "./cellComparison.js";

/** The reason if the error is the bottle's. */
export function ofBottle({ stray, distance }: Judged): string {
  // With too few bottles for comparison the reason is given elsewhere.
  return distance > leaveOutBeyond
    ? `${stray}. It leaked, tripped elsewhere or is mislabelled`
    : stray!;
}

/** The reason if the error is that of the cell. */
export function ofCell({ stray }: Judged, own: CellComparison, better: CellComparison): string {
  return `${stray}. It agrees with the ${better.cell} cell, so the ${own.cell} cell was off, not the bottle`;
}

/** The meaning of the scatter of the cast: for its samples, or for the cell that was not used. */
export function scatterNotes(
  first: CellComparison,
  all: readonly CellComparison[],
): readonly string[] {
  const notes = all
    .filter((other) => isErratic(other, first))
    .map(
      ({ cell }) =>
        `${cell} cell: the bottles scatter against it but not against the ${first.cell} cell. The cell is erratic, not the bottles`,
    );
  const { shared_ppm, scatter } = first.fit;
  if (shared_ppm > 0) {
    notes.push(
      `the samples scatter ${scatter.toFixed(1)} times as much as laboratory and water allow. The batch may be ` +
        `spoilt: its shared error has a standard deviation of ${shared_ppm.toFixed(0)} ppm`,
    );
  }
  return notes;
}
