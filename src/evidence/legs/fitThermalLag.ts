// How much of the difference between the legs goes with the thermal lag of the cell: one free amplitude.
// It is found from how the difference follows the lag inside each stretch of the cast, with the stretches'
// own levels left free, so that a film, which shifts whole stretches alike, does not pass for lag.
import { biweight } from "../../statistics/robustRegression.js";

export interface LagFit {
  /** In units of the usual lag; 0 for legs corrected for it. */
  readonly amplitude: number;
  readonly standardUncertainty: number;
}

/** The amplitude is between about -2 and 2 before the cast is looked at: cells differ, and legs may be corrected. */
const priorDeviation = 2;
/**
 * The fit's variance is this many times what stretches of unchanging scatter would give: found on
 * simulated casts (tests/evidence/legs.test.ts), where the lag's fine course has been smoothed away.
 */
const shapeVariance = 1.75;
const rounds = 8;

export interface LagSeries {
  readonly difference: Float64Array;
  /** The usual lag's effect, same unit. */
  readonly lag: Float64Array;
  /** Standard deviation of each difference about the level of its stretch. */
  readonly standardDeviation: Float64Array;
  /** Variance of a mean of n differences is this / n times theirs; one a difference. */
  readonly memory: Float64Array;
  /** Values in a stretch. */
  readonly stretch: number;
}

export function fitThermalLag(series: LagSeries): LagFit {
  const { difference, standardDeviation, memory } = series;
  const precision = new Float64Array(difference.length);
  const independent = new Float64Array(difference.length);
  for (let i = 0; i < precision.length; i++) {
    precision[i] = 1 / standardDeviation[i]! ** 2;
    independent[i] = precision[i]! / memory[i]!;
  }
  let amplitude = 0;
  let information = 0;
  let weights: Float64Array = new Float64Array(difference.length).fill(1);
  for (let round = 0; round < rounds; round++) {
    const sums = withinStretches(series, product(weights, independent));
    information = sums.lagSquared / shapeVariance;
    const before = amplitude;
    amplitude = sums.product / shapeVariance / (information + priorDeviation ** -2);
    weights = reweighted(series, amplitude, product(weights, precision));
    if (Math.abs(amplitude - before) < 1e-4) break;
  }
  return { amplitude, standardUncertainty: 1 / Math.sqrt(information + priorDeviation ** -2) };
}

function product(a: Float64Array, b: Float64Array): Float64Array {
  const both = new Float64Array(a.length);
  for (let i = 0; i < both.length; i++) both[i] = a[i]! * b[i]!;
  return both;
}

/** Weighted sums of squares and products of the lag and the difference about the means of their stretches. */
function withinStretches(series: LagSeries, weight: Float64Array) {
  const { difference, lag, stretch } = series;
  let lagSquared = 0;
  let product = 0;
  for (let from = 0; from < difference.length; from += stretch) {
    const to = Math.min(from + stretch, difference.length);
    const mean = stretchMeans(series, weight, from, to);
    for (let i = from; i < to; i++) {
      const away = lag[i]! - mean.lag;
      lagSquared += weight[i]! * away * away;
      product += weight[i]! * away * (difference[i]! - mean.difference);
    }
  }
  return { lagSquared, product };
}

/** Tukey's biweight of what is left about each stretch's level. */
function reweighted(series: LagSeries, amplitude: number, weight: Float64Array): Float64Array {
  const { difference, lag, standardDeviation, stretch } = series;
  const next = new Float64Array(weight.length);
  for (let from = 0; from < difference.length; from += stretch) {
    const to = Math.min(from + stretch, difference.length);
    const mean = stretchMeans(series, weight, from, to);
    const level = mean.difference - amplitude * mean.lag;
    for (let i = from; i < to; i++) {
      const residual = difference[i]! - amplitude * lag[i]! - level;
      next[i] = biweight(residual / standardDeviation[i]!);
    }
  }
  return next;
}

function stretchMeans(
  { difference, lag }: LagSeries,
  weight: Float64Array,
  from: number,
  to: number,
) {
  let total = 0;
  let lags = 0;
  let differences = 0;
  for (let i = from; i < to; i++) {
    total += weight[i]!;
    lags += weight[i]! * lag[i]!;
    differences += weight[i]! * difference[i]!;
  }
  return total > 0
    ? { lag: lags / total, difference: differences / total }
    : { lag: 0, difference: 0 };
}
