// Where a film that stays came into a cell, from all that its readings along the path say: most of all from the pair,
// which tells it within a few layers, also inside a thermocline, and on which leg.
import type { CellName } from "../../cast/cast.js";
import type { Onset } from "../../model/observation.js";
import type { FilmsOnPath } from "./filmsOnPath.js";
import { runningMoments } from "./runningMoments.js";

export interface PairOnset extends Onset {
  readonly cell: CellName;
  /** Size of the step, ppm; negative reads fresh. */
  readonly ppm: number;
  readonly standardUncertainty_ppm: number;
  /** Natural logarithms of the evidence ratio of such a step against other explanations. */
  readonly logBayesFactor: {
    readonly nothing: number;
    readonly fades: number;
    readonly otherWater: number;
    readonly otherCell: number;
  };
}

/**
 * A step is real where it explains the cast this many times better than nothing, and this many times better than
 * another water or the other cell [KassRaftery1995], and no worse than one that fades; and not below this size, ppm,
 * as between the legs.
 */
const againstNothing = 1000;
const againstOthers = 10;
const leastStep_ppm = 15;
/** However clear, no more certain of the leg than this. */
const mostCertain = 0.98;
/** A step lies between two layers; none is placed better than this, dbar (judgement). */
const leastUncertainty_dbar = 1;

/**
 * @param own   what films of the cell would explain, from its legs and the pair
 * @param other the same of the other cell
 * @returns undefined where no step is real
 */
export function pairOnset(
  cell: CellName,
  own: FilmsOnPath,
  other: FilmsOnPath,
): PairOnset | undefined {
  const { stays, log, deepest_dbar } = own;
  const logBayesFactor = {
    nothing: log.stays,
    fades: log.stays - log.fades,
    otherWater: log.stays - log.otherWater,
    otherCell: log.stays - Math.max(other.log.stays, other.log.fades),
  };
  const { nothing, fades, otherWater, otherCell } = logBayesFactor;
  const clear = nothing > Math.log(againstNothing) && fades > 0;
  if (!(clear && Math.min(otherWater, otherCell) > Math.log(againstOthers))) return undefined;
  const byLeg = {
    down: { path: runningMoments(), size: runningMoments() },
    up: { path: runningMoments(), size: runningMoments() },
  };
  for (let k = 0; k < stays.log.length; k++) {
    const at = stays.onset_dbar[k]!;
    const p = stays.prior[k]! * Math.exp(stays.log[k]! - log.stays);
    if (!(p > 0)) continue;
    const { path, size } = byLeg[at < deepest_dbar ? "down" : "up"];
    path.add(p, at);
    size.add(p, stays.ppm[k]!, stays.standardDeviation_ppm[k]!);
  }
  const weightDown = byLeg.down.path.weight();
  const down = weightDown / (weightDown + byLeg.up.path.weight());
  const leg = down > 0.5 ? "down" : "up";
  const path = byLeg[leg].path.result();
  const size = byLeg[leg].size.result();
  if (Math.abs(size.value) < leastStep_ppm) return undefined;
  return {
    cell,
    pressure_dbar: leg === "down" ? path.value : 2 * deepest_dbar - path.value,
    standardUncertainty_dbar: Math.hypot(path.standardUncertainty, leastUncertainty_dbar),
    probabilityDown: Math.min(mostCertain, Math.max(1 - mostCertain, down)),
    ppm: size.value,
    standardUncertainty_ppm: size.standardUncertainty,
    logBayesFactor,
  };
}
