// Scatter of the samples of one cast beyond their errors, and the error that they then share.
// Samples that all went wrong, by evaporation or by fresh water in the flasks, scatter by far more than the laboratory
// error, and all in one direction. So their centre is off by as much as they scatter, for any number of samples.
import { effectiveNumber } from "../../statistics/effectiveNumber.js";
import { madEfficiency, toNormal } from "../../statistics/madScale.js";
import { weightedMedian } from "../../statistics/weightedMedian.js";

/**
 * Scatter up to `from` of its own standard deviations (1 in 200) counts as chance, and from `to` on as real. Between the two the
 * weight is interpolated, so that a small change of scatter changes it little (judgement).
 */
const chance = { from: 2.6, to: 4 };
/**
 * Standard deviation of the shared error in units of the scatter. If all errors are in one direction, their centre is off by 1.9
 * standard deviations where they are uniform between 0.05 and 1 of the largest, and by 1 where they are exponential. With 2 the
 * 95 % interval contains both (judgement).
 */
const sharedPerScatter = 2;
/**
 * With few samples the scatter is uncertain: the share grows by 1 + 2 / degrees of freedom, about as Student's t does
 * (judgement).
 */
const fewSamples = 2;
/**
 * A sample further away than this, in robust standard deviations, is an outlier without information on the others
 * (judgement).
 */
const ofItsOwn = 2.5;

interface Scatter {
  /** Robust standard deviation relative to the errors, corrected for degrees of freedom. */
  readonly scatter: number;
  /** 0 if it may be chance, 1 if not. */
  readonly beyondChance: number;
}

/**
 * @param residuals about a centre or line with this many coefficients
 * @param sigma     standard deviation of each one's ordinary error
 */
export function scatterOf(
  residuals: readonly number[],
  sigma: readonly number[],
  coefficients: number,
): Scatter {
  const weights = sigma.map((s) => 1 / s ** 2);
  const count = effectiveNumber(weights);
  const degreesOfFreedom = Math.max(1, count - coefficients);
  const deviations = residuals.map((r, i) => Math.abs(r) / sigma[i]!);
  const scatter =
    toNormal * weightedMedian(deviations, weights) * Math.sqrt(count / degreesOfFreedom);
  const byChance = (scatter - 1) * Math.sqrt(2 * madEfficiency * degreesOfFreedom);
  const beyondChance = (byChance - chance.from) / (chance.to - chance.from);
  return { scatter, beyondChance: Math.min(1, Math.max(0, beyondChance)) };
}

/**
 * The error that samples share, from their scatter, in the unit of sigma.
 * @param residuals about the centre alone: no slope can be estimated from such bad samples
 */
export function sharedError(
  residuals: readonly number[],
  sigma: readonly number[],
  beyondChance: number,
): number {
  if (beyondChance === 0) return 0;
  const weights = sigma.map((s) => 1 / s ** 2);
  const count = effectiveNumber(weights);
  const { scatter } = scatterOf(residuals, sigma, 1);
  const squares = residuals.map((r, i) => (r / sigma[i]!) ** 2);
  const near = squares.map((square, i) => (square < (ofItsOwn * scatter) ** 2 ? weights[i]! : 0));
  const kept = near.reduce((sum, w) => sum + w, 0);
  const square = near.reduce((sum, w, i) => sum + w * squares[i]!, 0) / kept;
  const degreesOfFreedom = Math.max(1, count - 1);
  // The larger of two estimates: the robust scatter, and the standard deviation without outliers.
  const size = Math.max(scatter ** 2, (square * count) / degreesOfFreedom);
  const excess = Math.sqrt(Math.max(0, size - 1));
  const typical = Math.sqrt(count / weights.reduce((sum, w) => sum + w, 0));
  return sharedPerScatter * (1 + fewSamples / degreesOfFreedom) * beyondChance * excess * typical;
}
