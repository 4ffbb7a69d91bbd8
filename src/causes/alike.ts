// One thing that comes to several cells at once: the same for all, and what the second has more or less than the first.
import type { CellName } from "../cast/cast.js";
import type { Coefficient } from "../model/cause.js";
import type { CellSlot } from "../model/layout.js";

/** Share of the size by which cells that met the same thing differ: one may catch half of what the other does (judgement). */
const unlike = 0.4;

/** @param sd prior standard deviation of the size, units of the slots; of a half-normal where it cannot be positive */
export function alike(
  cells: readonly CellName[],
  slots: readonly CellSlot[],
  { sd, notPositive = false }: { readonly sd: number; readonly notPositive?: boolean },
): readonly Coefficient[] {
  const [first, second] = cells;
  const acts = (cell: CellName) => slots.map((slot) => ({ cell, slot, weight: 1 }) as const);
  const together: Coefficient = {
    acts: cells.flatMap(acts),
    sd,
    ...(notPositive && first !== undefined ? { notPositive: first } : {}),
  };
  return second === undefined ? [together] : [together, { acts: acts(second), sd: unlike * sd }];
}
