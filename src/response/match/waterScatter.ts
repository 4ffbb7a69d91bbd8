// Scatter and correlation length of a series of differences between the legs. Both are estimated from differences of the
// series with itself at some distance, so that neither a constant nor a single step counts as scatter.
import { madScale } from "../../statistics/madScale.js";

interface WaterScatter {
  /** Standard deviation about the local level, ppm, one for each value of the series; never below `leastScatter_ppm`. */
  readonly standardDeviation: Float64Array;
  /**
   * 1 + 2 x the sum of the autocorrelation, one for each value: the variance of a mean of n values is this / n times
   * theirs.
   */
  readonly memory: Float64Array;
}

/** Least scatter of a difference, ppm: sensor errors that do not repeat over seconds (judgement). */
export const leastScatter_ppm = 2;
/** Assumed scatter between the legs if there are too few values, ppm: 0.01 in salinity (judgement). */
const unknownScatter_ppm = 250;
/**
 * Differences beyond this many standard deviations are set to this limit (Winsor's rule; 3 is common practice, no source).
 */
const winsor = 3;
/**
 * The sum of autocorrelations stops at the first below this (judgement: the size that a few hundred values show by chance).
 */
const forgotten = 0.05;
/** The correlation is estimated over sections of this many reaches, at most this many in the series (judgement). */
const sectionReaches = 4;
const mostSections = 8;
/** The sill of the variogram is the mean over about this many lags (speed). */
const sillLags = 10;

/**
 * @param series differences, in order of pressure, without NaN
 * @param reach  assumed correlation length, in values; scatter is local to about three of these
 * @param unknown_ppm the scatter if there are too few values
 */
export function waterScatter(
  series: ArrayLike<number>,
  reach: number,
  unknown_ppm = unknownScatter_ppm,
): WaterScatter {
  const n = series.length;
  const half = Math.max(1, Math.floor(reach / 2));
  const lags = [half, Math.max(half, Math.floor(reach))];
  const centres: number[] = [];
  const scales: number[] = [];
  // Each scale is that of three reaches around a centre (judgement).
  const differences = new Float64Array(lags.length * Math.min(n, 2 * Math.floor(1.5 * reach) + 1));
  for (let centre = Math.floor(reach / 2); centre < n; centre += Math.max(1, Math.floor(reach))) {
    const from = Math.max(0, centre - Math.floor(1.5 * reach));
    const to = Math.min(n, centre + Math.floor(1.5 * reach) + 1);
    const scale = scaleOf(series, from, to, lags, differences);
    if (!(scale > 0)) continue;
    centres.push(centre);
    scales.push(Math.log(scale));
  }
  const seen = interpolate(n, centres, scales).map(Math.exp);
  const memory = localMemory(series, seen, Math.floor(reach));
  const standardDeviation = seen.map((s) =>
    Number.isFinite(s) ? Math.max(s, leastScatter_ppm) : unknown_ppm,
  );
  return { standardDeviation, memory };
}

function localMemory(series: ArrayLike<number>, scale: Float64Array, reach: number): Float64Array {
  const n = series.length;
  const precision = scale.map((s) => 1 / (s * s));
  const length = Math.max(sectionReaches * reach, Math.ceil(n / mostSections));
  const sections = Math.max(1, Math.floor(n / length));
  const centres: number[] = [];
  const memories: number[] = [];
  for (let section = 0; section < sections; section++) {
    const from = Math.floor((section * n) / sections);
    const to = Math.floor(((section + 1) * n) / sections);
    centres.push((from + to) / 2);
    memories.push(memoryOf(series, precision, reach, from, to));
  }
  return interpolate(n, centres, memories);
}

/**
 * Winsorised standard deviation from differences at the given lags.
 * @param differences work array
 */
function scaleOf(
  series: ArrayLike<number>,
  from: number,
  to: number,
  lags: readonly number[],
  differences: Float64Array,
): number {
  let count = 0;
  for (const lag of lags) {
    for (let i = from; i + lag < to; i++) differences[count++] = series[i + lag]! - series[i]!;
  }
  return winsorisedScale(differences, count) / Math.SQRT2;
}

/** Standard deviation about zero of the first values, with outliers set to the limit. */
export function winsorisedScale(values: Float64Array, count = values.length): number {
  const rough = madScale(values, 0, count);
  if (!(rough > 0)) return rough;
  const limit = (winsor * rough) ** 2;
  let squares = 0;
  for (let i = 0; i < count; i++) squares += Math.min(values[i]! * values[i]!, limit);
  return Math.sqrt(squares / count);
}

function memoryOf(
  series: ArrayLike<number>,
  precision: Float64Array,
  reach: number,
  from: number,
  to: number,
): number {
  const variogram = (lag: number) => variogramAt(series, precision, lag, from, to);
  const furthest = Math.min(reach, Math.floor((to - from) / 2));
  const near = Math.floor(furthest / 2);
  // Neighbouring lags are similar, so a few of the longer ones, evenly spaced, give the sill.
  const stride = Math.max(1, Math.floor((furthest - near) / sillLags));
  let sill = 0;
  let count = 0;
  for (let lag = near + 1; lag <= furthest; lag += stride) {
    sill += variogram(lag);
    count++;
  }
  let memory = 1;
  for (let lag = 1; lag <= furthest; lag++) {
    const correlation = 1 - variogram(lag) / (sill / count);
    if (!(correlation > forgotten)) break;
    memory += 2 * correlation;
  }
  return memory;
}

/** Half the mean square of the standardised differences at a lag, each winsorised. */
function variogramAt(
  series: ArrayLike<number>,
  precision: Float64Array,
  lag: number,
  from: number,
  to: number,
): number {
  const most = 2 * winsor * winsor;
  let sum = 0;
  for (let i = from; i + lag < to; i++) {
    const difference = series[i + lag]! - series[i]!;
    const square = difference * difference * precision[i]!;
    sum += Math.min(square, most);
  }
  return sum / (to - from - lag) / 2;
}

/** Values at 0 ... n - 1 by interpolation between rising places; constant beyond the ends. */
function interpolate(
  n: number,
  places: readonly number[],
  values: readonly number[],
): Float64Array {
  const filled = new Float64Array(n);
  let next = 0;
  for (let i = 0; i < n; i++) {
    while (next < places.length && places[next]! < i) next++;
    const after = values[Math.min(next, values.length - 1)] ?? Number.NaN;
    if (next === 0 || next === places.length) {
      filled[i] = after;
      continue;
    }
    const before = values[next - 1]!;
    const part = (i - places[next - 1]!) / (places[next]! - places[next - 1]!);
    filled[i] = before + part * (after - before);
  }
  return filled;
}
