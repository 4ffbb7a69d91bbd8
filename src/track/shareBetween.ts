// What share of a film is left, from the cell's gain before and after: a ratio of two differences from one clean gain.

import { filmNoise } from "../model/noise.js";
import { normalCdf, normalPdf } from "../statistics/normal.js";

/** The gain of a cell and what it reads when clean, ppm, with their second moments. */
export interface GainAndClean {
  readonly gain: number;
  readonly clean: number;
  readonly gainVariance: number;
  readonly cleanVariance: number;
  readonly covariance: number;
}

/** A number and its variance, ppm and ppm squared. */
export interface Measured {
  readonly mean: number;
  readonly variance: number;
}

/**
 * The error of the clean gain cancels where all of the film stays and counts in full where none does. A share lies
 * between none and all: the normal distribution of the ratio is cut there.
 * @param after      the gain as it was then observed, independent of what was held before
 * @param growth_ppm what grew between the two beside, negative
 */
export function shareBetween(
  { gain, clean, gainVariance, cleanVariance, covariance }: GainAndClean,
  after: Measured,
  growth_ppm: number,
): { readonly mean: number; readonly sd: number } {
  const film = gain - clean;
  const share = (after.mean - growth_ppm - clean) / film;
  const gone = 1 - share;
  const variance =
    after.variance +
    share ** 2 * gainVariance +
    gone ** 2 * cleanVariance +
    2 * share * gone * covariance +
    filmNoise.usual ** 2;
  return cutToShare(share, Math.sqrt(Math.max(0, variance)) / Math.abs(film));
}

/** Mean and standard deviation of a normal variable known to lie between 0 and 1 [JohnsonEtAl1994]. */
export function cutToShare(
  mean: number,
  sd: number,
): { readonly mean: number; readonly sd: number } {
  const [low, high] = [-mean / sd, (1 - mean) / sd];
  // By the tail that is near, so that nothing cancels.
  const inside = low > 0 ? normalCdf(-low) - normalCdf(-high) : normalCdf(high) - normalCdf(low);
  // Further out than six standard deviations the film did something else meanwhile: the edge, as uncertain.
  if (!(inside > 1e-9)) return { mean: Math.min(1, Math.max(0, mean)), sd };
  const [atLow, atHigh] = [normalPdf(low) / inside, normalPdf(high) / inside];
  const shift = atLow - atHigh;
  const kept = 1 + low * atLow - high * atHigh - shift ** 2;
  return { mean: mean + sd * shift, sd: sd * Math.sqrt(Math.max(0, kept)) };
}

/**
 * What an observation alone says, from what was held before it and with it, by the algebra of the normal
 * distribution: precisions add.
 * @returns undefined where it taught nothing
 */
export function observedAlone(prior: Measured, posterior: Measured): Measured | undefined {
  const precision = 1 / posterior.variance - 1 / prior.variance;
  if (!(precision > 0)) return undefined;
  const mean = (posterior.mean / posterior.variance - prior.mean / prior.variance) / precision;
  return { mean, variance: 1 / precision };
}
