// What a bottle sees: the gain of the cell on the up leg, and the errors that it shares with other bottles.
import type { CellName } from "../../cast/cast.js";
import { type DesignTerm, gainOf } from "../../model/observation.js";

/**
 * The gain on the up leg, the standardisation error of the laboratory run, and water from below.
 * @param inGradient_ppm standard deviation of what gradients, lag and swell do to it
 * @param perWake what one dbar of wake does to it, ppm: a bottle that holds water from below shows this much more
 */
export function bottleDesign(
  cell: CellName,
  perWake: number,
  inGradient_ppm: number,
): readonly DesignTerm[] {
  return [
    gainOf(cell, "up"),
    { shared: "run", weight: 1 },
    { shared: "batch", weight: 1 },
    { shared: "wake", weight: perWake },
    { shared: "bottlesInGradients", weight: inGradient_ppm },
  ];
}

/** What the same samples show when they are measured once more in another run: the error of the run. */
export const secondRunDesign: readonly DesignTerm[] = [{ shared: "run", weight: 1 }];
