// A Gaussian over a few coefficients and its closed-form operations: conditioning on an observation (the Kalman update,
// [Kalman1960]), linear maps, added noise, and the condition that a coefficient is not positive.
import { normalLogCdf } from "../statistics/normal.js";
import type { Past } from "./past.js";
import {
  addTransition,
  assignTransition,
  conditionTransition,
  copyTransition,
  truncateTransition,
} from "./transition.js";

export interface Gaussian {
  readonly mean: Float64Array;
  /** Row by row, size x size. */
  readonly covariance: Float64Array;
  /** The covariance with earlier casts for the smoother, if it was requested. */
  readonly past?: Past;
}

/** All coefficients zero and certain. */
export function certainZero(size: number): Gaussian {
  return { mean: new Float64Array(size), covariance: new Float64Array(size * size) };
}

export function copyOf({ mean, covariance, past }: Gaussian): Gaussian {
  const own = { mean: mean.slice(), covariance: covariance.slice() };
  if (past === undefined) return own;
  return { ...own, past: { ...past, since: copyTransition(past.since) } };
}

/** Work array for the gains of one observation, because the filter conditions some ten thousand times a cast. */
let gains = new Float64Array(0);

/** The work array with this many zeros. */
function noGain(size: number): Float64Array {
  if (gains.length !== size) gains = new Float64Array(size);
  return gains.fill(0);
}

/**
 * Condition in place on value = row . x + error.
 * @returns the log density of the value before the update; -Infinity if the value is impossible
 */
export function condition(
  { mean, covariance, past }: Gaussian,
  row: Float64Array,
  value: number,
  variance: number,
): number {
  const size = mean.length;
  const gain = noGain(size);
  let innovation = value;
  for (let j = 0; j < size; j++) {
    const weight = row[j]!;
    if (weight === 0) continue;
    innovation -= weight * mean[j]!;
    for (let i = 0; i < size; i++) gain[i]! += covariance[j * size + i]! * weight;
  }
  let total = variance;
  for (let i = 0; i < size; i++) total += row[i]! * gain[i]!;
  if (!(total > 0)) return innovation === 0 ? 0 : Number.NEGATIVE_INFINITY;
  if (past !== undefined) conditionTransition(past.since, row, gain, innovation, total);
  for (let i = 0; i < size; i++) {
    const share = gain[i]! / total;
    if (share === 0) continue;
    mean[i]! += share * innovation;
    for (let j = 0; j < size; j++) covariance[i * size + j]! -= share * gain[j]!;
  }
  return -0.5 * (Math.log(2 * Math.PI * total) + (innovation * innovation) / total);
}

/** Add in place: x becomes x + direction * a, with a of the given mean and variance, independent of x. */
export function widen(
  { mean, covariance }: Gaussian,
  direction: Float64Array,
  addedMean: number,
  addedVariance: number,
): void {
  const size = mean.length;
  for (let i = 0; i < size; i++) {
    if (direction[i] === 0) continue;
    mean[i]! += direction[i]! * addedMean;
    for (let j = 0; j < size; j++) {
      covariance[i * size + j]! += direction[i]! * direction[j]! * addedVariance;
    }
  }
}

/** Replace in place: coefficient `to` becomes factor x coefficient `from`, plus an independent error. */
export function assign(
  { mean, covariance, past }: Gaussian,
  to: number,
  from: number,
  factor: number,
  variance: number,
): void {
  const size = mean.length;
  const own = factor * factor * covariance[from * size + from]! + variance;
  for (let j = 0; j < size; j++) {
    const shared = factor * covariance[from * size + j]!;
    covariance[to * size + j] = shared;
    covariance[j * size + to] = shared;
  }
  covariance[to * size + to] = own;
  mean[to] = factor * mean[from]!;
  if (past !== undefined) assignTransition(past.since, to, from, factor);
}

/** Add in place: coefficient `to` becomes itself plus factor x coefficient `from`. */
export function add(
  { mean, covariance, past }: Gaussian,
  to: number,
  from: number,
  factor: number,
): void {
  const size = mean.length;
  mean[to]! += factor * mean[from]!;
  for (let j = 0; j < size; j++)
    covariance[to * size + j]! += factor * covariance[from * size + j]!;
  for (let j = 0; j < size; j++)
    covariance[j * size + to]! += factor * covariance[j * size + from]!;
  if (past !== undefined) addTransition(past.since, to, from, factor);
}

/** Add an independent error to one coefficient, in place. */
export function addVariance({ mean, covariance }: Gaussian, index: number, variance: number): void {
  covariance[index * mean.length + index]! += variance;
}

/** Replace in place: the coefficient is redrawn, independent of all others. */
export function redraw(gaussian: Gaussian, index: number, mean: number, variance: number): void {
  assign(gaussian, index, index, 0, variance);
  gaussian.mean[index] = mean;
}

/**
 * Condition in place on "the coefficient is not positive", with the first two moments exact.
 * @returns the log of the prior probability of that
 */
export function truncateNotPositive({ mean, covariance, past }: Gaussian, index: number): number {
  const size = mean.length;
  const variance = covariance[index * size + index]!;
  const logProbability = logNotPositive({ mean, covariance }, index);
  if (!(variance > 0)) return logProbability;
  const sd = Math.sqrt(variance);
  const edge = -mean[index]! / sd;
  const ratio = Math.exp(-0.5 * edge * edge - 0.5 * Math.log(2 * Math.PI) - logProbability);
  const shift = -sd * ratio;
  const kept = Math.max(1e-12, 1 - edge * ratio - ratio * ratio); // above 0 in spite of rounding (judgement)
  const column = new Float64Array(size);
  for (let i = 0; i < size; i++) column[i] = covariance[i * size + index]! / variance;
  for (let i = 0; i < size; i++) {
    mean[i]! += column[i]! * shift;
    for (let j = 0; j < size; j++) {
      covariance[i * size + j]! += column[i]! * column[j]! * variance * (kept - 1);
    }
  }
  if (past !== undefined) truncateTransition(past.since, index, variance, column, shift, kept);
  return logProbability;
}

/** Log of the probability that a coefficient is not positive. */
export function logNotPositive({ mean, covariance }: Gaussian, index: number): number {
  const variance = covariance[index * mean.length + index]!;
  if (!(variance > 0)) return mean[index]! <= 0 ? 0 : Number.NEGATIVE_INFINITY;
  return normalLogCdf(-mean[index]! / Math.sqrt(variance));
}

/** Mean and variance of row . x. */
export function projected(
  { mean, covariance }: Gaussian,
  row: Float64Array,
): { readonly mean: number; readonly variance: number } {
  const size = mean.length;
  let m = 0;
  let v = 0;
  for (let i = 0; i < size; i++) {
    if (row[i] === 0) continue;
    m += row[i]! * mean[i]!;
    for (let j = 0; j < size; j++) v += row[i]! * covariance[i * size + j]! * row[j]!;
  }
  return { mean: m, variance: Math.max(0, v) };
}
