// The remaining thermal lag of the cell at a bottle closure: the wall still gives off, or takes up, heat from the water
// before. It is not removed. The lag is fitted to a package that moves, and heat that is left after a stop passes more slowly.
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

/**
 * The effect that the lag has left at a closure, as a standard uncertainty of the temperature in the cell, K; 0 without times.
 * Any cell may hold heat for as long as the slowest published one. If the fitted lag has left more, that is the uncertainty.
 * @param temperature degree C, one for each scan of the cast
 * @param scans       indices of the scans at closure, in order of time
 * @param fitted      the lag as fitted to the scans of this cast; absent if it was not fitted
 */
export function lagUncertainty_K(
  up: UpScans,
  temperature: Float64Array,
  scans: readonly number[],
  fitted: CellLag = slowestPublishedLag,
): number {
  if (!up.timed) return 0;
  const left = (lag: CellLag) => Math.abs(lagAt(up, temperature, scans, lag));
  return Math.max(left(slowestPublishedLag), left(fitted));
}

/**
 * The effect at a closure of heat in the outer parts of the cell, at the size of `CellLagFit.outerHeat_ppm`, as a temperature
 * in the cell, K; 0 without times. Negative if the cell is still warmer than the water. It is a common error of bottles: after
 * warm water above, all closures at the bottom read salty.
 */
export function outerHeatLag_K(
  up: UpScans,
  temperature: Float64Array,
  scans: readonly number[],
  fitted: CellLag = publishedLag,
): number {
  if (!up.timed) return 0;
  const timesUsual = (fitted.alpha * fitted.tau_s) / (publishedLag.alpha * publishedLag.tau_s);
  return Math.max(1, timesUsual) * lagAt(up, temperature, scans, usualLagAt(outerHeat.tau_s));
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
