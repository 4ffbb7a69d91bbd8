// The remaining thermal lag of the cell at a bottle closure: the wall still gives off, or takes up, heat from the water
// before.
import { outerHeat, usualLagAt } from "../../response/lag/lagPrior.js";
import type { UpScans } from "./upScans.js";

/** A first-order lag of amplitude alpha and time constant tau [LueckPicklo1990], as fitted to the cell. */
export interface FittedLag {
  readonly alpha: number;
  readonly tau_s: number;
  readonly standardUncertainty?: { readonly alpha: number; readonly tau_s: number };
}

/**
 * An unknown lag may be as strong and as long as the slower of two published cells with little flow [JohnsonEtAl2007] (from
 * memory). Its whole effect is then taken as a standard uncertainty.
 */
const unknownLag: FittedLag = { alpha: 0.0267, tau_s: 18.6 };
/** A lag without a stated uncertainty has this relative uncertainty (judgement: fits of one cell on several casts). */
const unstatedShare = 0.3;
/** Effects older than this many time constants are ignored: e^-6 is 0.002 (judgement). */
const remembered = 6;

interface LagLeft {
  /** Temperature outside minus that of the water in the cell, one for each requested scan, K; 0 if the lag is unknown. */
  readonly known_K: Float64Array;
  /** Standard uncertainty of their mean, K. */
  readonly uncertainty_K: number;
}

/**
 * @param temperature degree C, one for each scan of the cast
 * @param scans       indices of the scans at closure, in order of time
 * @param lag         as fitted to this cell; absent if unknown
 */
export function lagLeft(
  up: UpScans,
  temperature: Float64Array,
  scans: readonly number[],
  lag: FittedLag | undefined,
): LagLeft {
  if (!up.timed) return { known_K: new Float64Array(scans.length), uncertainty_K: 0 };
  if (lag === undefined) {
    const unknown = lagAt(up, temperature, scans, unknownLag);
    return { known_K: new Float64Array(scans.length), uncertainty_K: Math.abs(mean(unknown)) };
  }
  const { alpha, tau_s, standardUncertainty: sd } = lag;
  const perAlpha = lagAt(up, temperature, scans, { alpha: 1, tau_s });
  const known_K = perAlpha.map((each) => alpha * each);
  const left = mean(known_K);
  if (sd === undefined) return { known_K, uncertainty_K: Math.abs(unstatedShare * left) };
  const longer = mean(lagAt(up, temperature, scans, { alpha, tau_s: tau_s + sd.tau_s }));
  const outer = outerHeat.share * mean(lagAt(up, temperature, scans, outerLag(lag)));
  return { known_K, uncertainty_K: Math.hypot(sd.alpha * mean(perAlpha), longer - left, outer) };
}

/** The heat of the outer parts of the cell, which no fit removes: as of the lag of the wall, or the usual one if that is larger. */
function outerLag({ alpha, tau_s }: FittedLag): FittedLag {
  const usual = usualLagAt(outerHeat.tau_s);
  const size = Math.max(1, (alpha * tau_s) / (usual.alpha * usual.tau_s));
  return { ...usual, alpha: size * usual.alpha };
}

/** The first-order response, exact for a linear change of temperature from scan to scan. */
function lagAt(
  { seconds }: UpScans,
  temperature: Float64Array,
  scans: readonly number[],
  { alpha, tau_s }: FittedLag,
): Float64Array {
  const found = new Float64Array(scans.length);
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
    if (i === scans[next]) found[next++] = lag;
  }
  return found;
}

function mean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
