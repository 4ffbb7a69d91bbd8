// Why bottles were left out, and what their scatter says, in words.
import { type BesideCell, isErraticBeside, type Judged } from "./besideCell.js";
import { leaveOutBeyond } from "./castFit.js";

/** Why a bottle that is off is the bottle's fault. */
export function ofBottle({ stray, distance }: Judged): string {
  // With too few beside it the reason is told already.
  return distance > leaveOutBeyond
    ? `${stray}. It leaked, tripped elsewhere or is mislabelled`
    : stray!;
}

/** Why it is the fault of the cell beside it. */
export function ofCell({ stray }: Judged, own: BesideCell, better: BesideCell): string {
  return `${stray}. It agrees with the ${better.cell} cell, so the ${own.cell} cell was off, not the bottle`;
}

/** What the scatter of the cast says of its samples, or of the cell that was not used. */
export function scatterNotes(first: BesideCell, all: readonly BesideCell[]): readonly string[] {
  const notes = all
    .filter((other) => isErraticBeside(other, first))
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
