// The continuous ranked probability score of a forecast that is a mixture of normal distributions.
import type { Mixture } from "./mixture.js";
import { normalCdf, normalPdf } from "./normal.js";

/**
 * The integral over x of (F(x) - [observed <= x])^2, where F is the distribution function of the forecast. It is 0 for a
 * certain and right forecast and |error| for a certain and wrong one; less is better [GneitingRaftery2007]. In closed form
 * [GrimitEtAl2006]: E|X - observed| - E|X - X'| / 2, with X and X' independent draws of the forecast.
 * @param forecast weights that sum to one; a component without variance is a certainty
 * @returns in the unit of the observed value; NaN if that is NaN
 */
export function continuousRankedProbabilityScore(forecast: Mixture, observed: number): number {
  let score = 0;
  for (const [i, a] of forecast.entries()) {
    score += a.weight * meanDistance(a.mean - observed, a.variance);
    score -= 0.5 * a.weight ** 2 * meanDistance(0, 2 * a.variance);
    for (let j = 0; j < i; j++) {
      const b = forecast[j]!;
      score -= a.weight * b.weight * meanDistance(a.mean - b.mean, a.variance + b.variance);
    }
  }
  return score;
}

/** Mean of |X|, X normal. */
function meanDistance(mean: number, variance: number): number {
  if (!(variance > 0)) return Math.abs(mean);
  const sd = Math.sqrt(variance);
  const z = mean / sd;
  return sd * (2 * normalPdf(z) + z * (2 * normalCdf(z) - 1));
}
