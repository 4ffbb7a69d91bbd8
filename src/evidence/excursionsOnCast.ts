// The excursions of the cells of one cast.
import type { CellsOnPath } from "./cellsOnPath.js";
import { type Excursion, excursionOf } from "./excursion.js";

/** One for each cell that has readings on both legs, however improbable: `probability` says. */
export function excursionsOnCast({ primary, secondary }: CellsOnPath): readonly Excursion[] {
  const first = primary && excursionOf("primary", primary, secondary);
  const second = secondary && excursionOf("secondary", secondary, primary);
  return [first, second].filter((excursion) => excursion !== undefined);
}
