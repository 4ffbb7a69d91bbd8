// Compare the two legs of a cast for one cell: match the same water, form layers, and find the step between them if there
// is one.
import type { Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import type { Onset } from "../../model/observation.js";
import { cellLag } from "../../response/lag/cellLag.js";
import { type MatchedLegs, matchLegs } from "../../response/match/matchLegs.js";
import { type LegLayers, legLayers } from "./legLayers.js";
import { type LegStep, legsOnset } from "./legsOnset.js";

/** A step placed by other evidence than the legs. */
interface PlacedStep extends Onset {
  readonly ppm: number;
}

export interface ComparedLegs {
  readonly matched: MatchedLegs;
  readonly found: LegLayers;
  /** The step according to the legs alone. */
  readonly step?: LegStep;
  readonly placed?: PlacedStep;
}

/** Number of rounds in which the step of the round before is excluded from scatter and lag (judgement). */
const rounds = 2;

/**
 * @param legs of the cast, neither empty; the cast has the cell
 * @param thin precomputed by `thinLayers`, optional
 */
export function compareLegs(
  cast: Cast,
  legs: Legs,
  cell: CellName,
  thin = thinLayers(cast, legs),
): ComparedLegs {
  const matched = matchLegs(cast, legs, cell, thin);
  const plain = legLayers(matched, cellLag(cast, legs, cell, matched, undefined, thin));
  let found = plain;
  let step = legsOnset(matched, found.series, found.lag.timesUsual);
  for (let round = 0; round < rounds && step !== undefined; round++) {
    const known = { ppm: step.ppm, pressure_dbar: found.series.pressure_dbar[step.at]! };
    found = legLayers(matched, cellLag(cast, legs, cell, matched, known, thin), known);
    step = legsOnset(matched, found.series, found.lag.timesUsual);
  }
  return step === undefined ? { matched, found: plain } : { matched, found, step };
}

/** The same legs with a step from the pair, which places it better than the legs can. */
export function compareLegsAt(
  cast: Cast,
  legs: Legs,
  cell: CellName,
  compared: ComparedLegs,
  placed: PlacedStep,
  thin = thinLayers(cast, legs),
): ComparedLegs {
  const { matched } = compared;
  const found = legLayers(matched, cellLag(cast, legs, cell, matched, placed, thin), placed);
  return { ...compared, found, placed };
}
