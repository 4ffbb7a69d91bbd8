// The design of a bottle: the gain of the cell on the up leg, and the errors that it shares with other bottles.
import type { CellName } from "../../cast/cast.js";
import { type DesignTerm, gainOf } from "../../model/observation.js";

/** The effects of the water and of the cell's heat on one bottle, ppm. */
interface BottleEffects {
  /** Effect of one dbar of wake: a bottle with water from one dbar deeper shows this much more. */
  readonly perWake: number;
  /** Standard deviation of the error from gradients, lag and swell. */
  readonly gradient: number;
  /** Effect of heat in the outer parts of the cell. */
  readonly outerHeat_ppm: number;
}

/** The gain on the up leg, the standardisation error of the laboratory run, and the errors that bottles of all casts share. */
export function bottleDesign(
  cell: CellName,
  { perWake, gradient, outerHeat_ppm }: BottleEffects,
): readonly DesignTerm[] {
  return [
    gainOf(cell, "up"),
    { shared: "run", weight: 1 },
    { shared: "batch", weight: 1 },
    { shared: "wake", weight: perWake },
    { shared: "bottlesInGradients", weight: gradient },
    // Zero means unknown, because there are no scans.
    ...(outerHeat_ppm === 0 ? [] : [{ shared: "outerHeat", weight: outerHeat_ppm } as const]),
  ];
}

/** The design of the same samples measured again in another run: the error of the run. */
export const secondRunDesign: readonly DesignTerm[] = [{ shared: "run", weight: 1 }];
