// The share of a film that is left, from the cell's gain before and after: (after - clean) / (before - clean).

import { filmNoise } from "../model/noise.js";
import { normalCdf, normalPdf } from "../statistics/normal.js";

/** The gain of a cell and its clean gain, ppm, with their second moments. */
export interface GainAndClean {
  readonly gain: number;
  readonly clean: number;
  readonly gainVariance: number;
  readonly cleanVariance: number;
  readonly covariance: number;
}

/** A number and its variance, ppm and ppm squared. */
export interface MeanAndVariance {
  readonly mean: number;
  readonly variance: number;
}

/**
 * The error of the clean gain cancels if all of the film stays, and counts in full if none stays. A share lies between 0
 * and 1, so the normal distribution of the ratio is truncated there.
 * @param after      the gain observed afterwards, independent of the estimate before
 * @param growth_ppm growth of the film between the two, negative
 */
export function retainedShare(
  { gain, clean, gainVariance, cleanVariance, covariance }: GainAndClean,
  after: MeanAndVariance,
  growth_ppm: number,
): { readonly mean: number; readonly sd: number } {
  const film = gain - clean;
  const share = (after.mean - growth_ppm - clean) / film;
  const removed = 1 - share;
  const variance =
    after.variance +
    share ** 2 * gainVariance +
    removed ** 2 * cleanVariance +
    2 * share * removed * covariance +
    filmNoise.usual ** 2;
  return truncatedShare(share, Math.sqrt(Math.max(0, variance)) / Math.abs(film));
}

/** Mean and standard deviation of a normal variable known to lie between 0 and 1 [JohnsonEtAl1994]. */
export function truncatedShare(
  mean: number,
  sd: number,
): { readonly mean: number; readonly sd: number } {
  const [low, high] = [-mean / sd, (1 - mean) / sd];
  // Compute from the nearer tail to avoid cancellation.
  const inside = low > 0 ? normalCdf(-low) - normalCdf(-high) : normalCdf(high) - normalCdf(low);
  // Beyond six standard deviations the film changed in another way meanwhile: use the limit, with the same uncertainty.
  if (!(inside > 1e-9)) return { mean: Math.min(1, Math.max(0, mean)), sd };
  const [atLow, atHigh] = [normalPdf(low) / inside, normalPdf(high) / inside];
  const shift = atLow - atHigh;
  const kept = 1 + low * atLow - high * atHigh - shift ** 2;
  return { mean: mean + sd * shift, sd: sd * Math.sqrt(Math.max(0, kept)) };
}

/**
 * The measurement contained in an update, from the estimates before and after it. For normal distributions the precisions
 * subtract.
 * @returns undefined if the update carried no information
 */
export function measurementOf(
  prior: MeanAndVariance,
  posterior: MeanAndVariance,
): MeanAndVariance | undefined {
  const precision = 1 / posterior.variance - 1 / prior.variance;
  if (!(precision > 0)) return undefined;
  const mean = (posterior.mean / posterior.variance - prior.mean / prior.variance) / precision;
  return { mean, variance: 1 / precision };
}
