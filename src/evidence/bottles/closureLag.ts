// The remaining thermal lag of the cell at a bottle closure: the wall still gives off, or takes up, heat from the water before.
// It is not removed, because the lag was fitted while the package moved, and heat that is left after a stop decays more slowly.
import {
  type CellLag,
  outerHeat,
  publishedLag,
  slowestPublishedLag,
  usualLagAt,
} from "../../response/lag/lagPrior.js";
import type { UpScans } from "./upScans.js";

/** Effects older than this many time constants are ignored: e^-6 is 0.002 (judgement). */
const remembered = 6;

/** What heat in the cell does at a closure, as temperatures in the cell, K; 0 without times. */
interface HeatAtClosure {
  /**
   * Standard uncertainty from the lag: the larger of two remaining effects, of the slowest published lag and of the fitted lag.
   */
  readonly uncertainty_K: number;
  /**
   * Effect of heat in the outer parts, at the size of `CellLagFit.outerHeat_ppm`; negative if the cell is still warmer than
   * the water. Bottles have it in common: after warm water above, all closures at the bottom read salty.
   */
  readonly outer_K: number;
}

/**
 * @param temperature degree C, one for each scan of the cast
 * @param scans       indices of the scans at closure, in order of time
 * @param fitted      the lag as fitted to the scans of this cast; absent if it was not fitted
 */
export function heatAtClosure(
  up: UpScans,
  temperature: Float64Array,
  scans: readonly number[],
  fitted: CellLag | undefined,
): HeatAtClosure {
  if (!up.timed) return { uncertainty_K: 0, outer_K: 0 };
  const left = (lag: CellLag) => lagAt(up, temperature, scans, lag);
  const { alpha, tau_s } = fitted ?? publishedLag;
  const timesUsual = (alpha * tau_s) / (publishedLag.alpha * publishedLag.tau_s);
  return {
    uncertainty_K: Math.max(
      Math.abs(left(slowestPublishedLag)),
      Math.abs(left(fitted ?? slowestPublishedLag)),
    ),
    outer_K: Math.max(1, timesUsual) * left(usualLagAt(outerHeat.tau_s)),
  };
}

/** Mean over the scans of the first-order response [LueckPicklo1990], exact for a linear change from scan to scan. */
function lagAt(
  { seconds }: UpScans,
  temperature: Float64Array,
  scans: readonly number[],
  { alpha, tau_s }: CellLag,
): number {
  let sum = 0;
  const first = scans[0]!;
  let i = first;
  while (i > 0 && seconds[first]! - seconds[i - 1]! < remembered * tau_s) i--;
  let before = Number.NaN;
  let beforeAt = 0;
  let lag = 0;
  let next = 0;
  for (; next < scans.length; i++) {
    const t = temperature[i]!;
    if (Number.isFinite(t)) {
      if (Number.isFinite(before)) {
        const elapsed = seconds[i]! - beforeAt;
        const kept = Math.exp(-elapsed / tau_s);
        const response = elapsed > 0 ? ((1 - kept) * tau_s) / elapsed : 1;
        lag = kept * lag + alpha * response * (t - before);
      }
      before = t;
      beforeAt = seconds[i]!;
    }
    if (i === scans[next]) {
      sum += lag;
      next++;
    }
  }
  return sum / scans.length;
}
