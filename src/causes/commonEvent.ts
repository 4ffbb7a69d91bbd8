// One event on several cells at once: a common size, and a difference of the second cell.
import type { CellName } from "../cast/cast.js";
import type { Coefficient } from "../model/cause.js";
import type { CellSlot } from "../model/layout.js";

/**
 * Standard deviation of the difference between cells that met the same event, as a share of its size: one may catch half of
 * what the other does (judgement).
 */
const cellDifference = 0.4;

/** How much the event moves each coefficient of a cell. */
export type SlotWeights = Readonly<Partial<Record<CellSlot, number>>>;

/** @param sd prior standard deviation of the size, units of the slots; of a half-normal if it cannot be positive */
export function commonEvent(
  cells: readonly CellName[],
  weights: SlotWeights,
  { sd, notPositive = false }: { readonly sd: number; readonly notPositive?: boolean },
): readonly Coefficient[] {
  const [first, second] = cells;
  const acts = (cell: CellName) =>
    (Object.keys(weights) as CellSlot[]).map((slot) => ({ cell, slot, weight: weights[slot]! }));
  const together: Coefficient = {
    acts: cells.flatMap(acts),
    sd,
    ...(notPositive && first !== undefined ? { notPositive: first } : {}),
  };
  return second === undefined
    ? [together]
    : [together, { acts: acts(second), sd: cellDifference * sd }];
}
