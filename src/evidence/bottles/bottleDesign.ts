// The design of a bottle: the gain of the cell on the up leg, and the errors that it shares with other bottles.
import type { CellName } from "../../cast/cast.js";
import { type DesignTerm, gainOf } from "../../model/observation.js";

/**
 * The gain on the up leg, the standardisation error of the laboratory run, and water from below.
 * @param inGradient_ppm standard deviation of the effect of gradients, lag and swell
 * @param perWake effect of one dbar of wake, ppm: a bottle with water from below shows this much more
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

/** The design of the same samples measured again in another run: the error of the run. */
export const secondRunDesign: readonly DesignTerm[] = [{ shared: "run", weight: 1 }];
