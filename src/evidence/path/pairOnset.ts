// The place where a lasting film came into a cell, from all its readings along the path. The pair contributes most: it
// shows the place within a few layers, also in a thermocline, and the leg.
import type { CellName } from "../../cast/cast.js";
import type { Onset } from "../../model/observation.js";
import { leastBayesFactor, leastStep_ppm, mostLegProbability } from "../legs/stepThresholds.js";
import type { FilmsOnPath } from "./filmsOnPath.js";
import { runningMoments } from "./runningMoments.js";

export interface PairOnset extends Onset {
  readonly cell: CellName;
  /** Size of the step, ppm; negative reads fresh. */
  readonly ppm: number;
  readonly standardUncertainty_ppm: number;
}

/**
 * Required evidence ratio against different water or the other cell ("strong" begins at 20, "positive" at 3
 * [KassRaftery1995]; judgement).
 */
const againstOthers = 10;
/** A step lies between two layers; its place is never more precise than this, dbar (judgement). */
const leastUncertainty_dbar = 1;

/**
 * The step from a lasting film in one cell, as the pair shows it. It is reported if it explains the cast better than
 * nothing, than different water and than the other cell, and at least as well as a film that fades or leaves.
 * @param own   films of the cell as explanations, from its legs and the pair
 * @param other the same for the other cell
 * @returns undefined if there is no significant step
 */
export function pairOnset(
  cell: CellName,
  own: FilmsOnPath,
  other: FilmsOnPath,
): PairOnset | undefined {
  const { stays, log, deepest_dbar } = own;
  const others = () => Math.max(log.otherWater, other.log.stays, other.log.goes);
  const isClear =
    log.stays > Math.log(leastBayesFactor) &&
    log.stays > log.goes &&
    log.stays > others() + Math.log(againstOthers);
  if (!isClear) return undefined;
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
    probabilityDown: Math.min(mostLegProbability, Math.max(1 - mostLegProbability, down)),
    ppm: size.value,
    standardUncertainty_ppm: size.standardUncertainty,
  };
}
