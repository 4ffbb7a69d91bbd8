// One cell minus the other at the same places, from the scans of both legs or from the closures.
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, LegName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import type { Onset } from "../../model/observation.js";
import { closureReading } from "../bottles/closureReadings.js";
import { type PairDifference, pairDifference } from "./pairDifference.js";
import { pairInLayers } from "./pairInLayers.js";

/** Both cells at the same places, by leg. */
export interface PairDifferences {
  readonly from: "scans" | "closures";
  readonly byLeg: Readonly<Partial<Record<LegName, readonly PairDifference[]>>>;
}

/**
 * The two cells in the same water, from the scans of both legs if available, otherwise from the closures.
 * @param legs   as from `splitLegs`
 * @param thin   precomputed by `thinLayers`, optional
 * @param onsets places of steps: readings above and below are kept separate, those near a step are excluded
 */
export function pairDifferences(
  cast: Cast | undefined,
  legs: Legs | undefined,
  bottles: readonly Bottle[],
  thin = cast && legs && thinLayers(cast, legs),
  onsets: readonly Onset[] = [],
): PairDifferences {
  if (cast?.columns.secondary === undefined || thin === undefined) {
    return { from: "closures", byLeg: { up: closureDifferences(bottles) } };
  }
  const [down, up] = (["down", "up"] as const).map((leg) =>
    pairInLayers(thin, leg, legs?.clock, onsets),
  );
  return { from: "scans", byLeg: { down: down ?? [], up: up ?? [] } };
}

function closureDifferences(bottles: readonly Bottle[]): readonly PairDifference[] {
  return bottles.flatMap((bottle) => {
    const first = closureReading(bottle, "primary", undefined);
    const second = closureReading(bottle, "secondary", undefined);
    if (first === undefined || second === undefined) return [];
    const place = { pressure: bottle.pressure_dbar, lag: 0, outerHeat: 0, delay: 0, stretch: 0 };
    const found = pairDifference(first, second, place);
    return Number.isFinite(found.value) ? [found] : [];
  });
}
