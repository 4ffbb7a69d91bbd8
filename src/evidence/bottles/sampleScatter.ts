// How much more the samples of one cast scatter than their errors allow, and what error they share because of it.
//
// Samples that all went wrong, by evaporation or by fresh water in the flasks, scatter by far more than the laboratory
// does, and all to one side: their centre is off by as much as they scatter, however many they are.
import { effectiveNumber } from "../../statistics/effectiveNumber.js";
import { weightedMedian } from "../../statistics/weightedMedian.js";

/** 1 / the 0.75 quantile of the standard normal distribution: mathematics. */
const toNormal = 1.4826;
/** The median absolute deviation is 37 % efficient on normal errors [RousseeuwCroux1993]. */
const madEfficiency = 0.37;
/**
 * Scatter is held for chance up to so many of its own standard deviations, 1 in 200, and for more than chance from so many
 * on; between the two in proportion, so that a small change of scatter changes the weight little (judgement).
 */
const chance = { from: 2.6, to: 4 };
/**
 * Standard deviation of the shared error in units of the scatter. Errors evenly spread from 0.05 of the largest up, all to
 * one side, have their centre 1.9 times their standard deviation from the truth, exponential ones once: 2 holds both in
 * the 95 % interval (judgement).
 */
const sharedPerScatter = 2;
/** Few samples do not tell their scatter: the share grows by 1 + 2 / degrees of freedom, about as Student's t does (judgement). */
const fewSamples = 2;
/** Further out than this in robust standard deviations a sample is one of its own and tells nothing of the others (judgement). */
const ofItsOwn = 2.5;

interface Scatter {
  /** Robust standard deviation over what the errors allow, corrected for degrees of freedom. */
  readonly scatter: number;
  /** 0 where chance may have done it, 1 where it has not. */
  readonly beyondChance: number;
}

/**
 * @param residuals about a centre or line with so many coefficients
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
 * The error that samples share by their scatter, in the unit of sigma.
 * @param residuals about the centre alone: of samples so bad no slope can be told
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
  // The standard deviation is worth three medians where samples are few; the median does not lose to a few good ones.
  const size = Math.max(scatter ** 2, (square * count) / degreesOfFreedom);
  const excess = Math.sqrt(Math.max(0, size - 1));
  const typical = Math.sqrt(count / weights.reduce((sum, w) => sum + w, 0));
  return sharedPerScatter * (1 + fewSamples / degreesOfFreedom) * beyondChance * excess * typical;
}
