// The two legs of a cast laid against each other for one cell: the same water matched, layers, and the step between
// them where one is real.
import type { Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import { type LegLayers, legLayers } from "./legLayers.js";
import { type LegStep, legsOnset } from "./legsOnset.js";
import { type MatchedLegs, matchLegs } from "./matchLegs.js";

export interface ComparedLegs {
  readonly matched: MatchedLegs;
  readonly found: LegLayers;
  readonly step?: LegStep;
}

/** The step is found again this many times once it is known and no longer counts as scatter or lag. */
const rounds = 2;

/**
 * @param legs of the cast, neither empty; the cast has the cell
 * @param thin as from `thinLayers`, where it has been at it already
 */
export function compareLegs(
  cast: Cast,
  legs: Legs,
  cell: CellName,
  thin = thinLayers(cast, legs),
): ComparedLegs {
  const matched = matchLegs(cast, legs, cell, thin);
  const plain = legLayers(matched);
  let found = plain;
  let step = legsOnset(matched, found.series, found.lag.amplitude);
  for (let round = 0; round < rounds && step !== undefined; round++) {
    found = legLayers(matched, {
      ppm: step.ppm,
      pressure_dbar: found.series.pressure_dbar[step.at]!,
    });
    step = legsOnset(matched, found.series, found.lag.amplitude);
  }
  return step === undefined ? { matched, found: plain } : { matched, found, step };
}
