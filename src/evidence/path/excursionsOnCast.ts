// The excursions of the cells of one cast.
import type { CellsOnPath } from "./cellsOnPath.js";
import { type Excursion, excursionOf } from "./excursion.js";

/**
 * The most probable excursion of each cell with readings on both legs; `probability` is the probability that it is real.
 * @param least smallest probability that is reported
 */
export function excursionsOnCast(
  { primary, secondary }: CellsOnPath,
  least = 0,
): readonly Excursion[] {
  const first = primary && excursionOf("primary", primary, secondary, least);
  const second = secondary && excursionOf("secondary", secondary, primary, least);
  return [first, second].filter((excursion) => excursion !== undefined);
}
