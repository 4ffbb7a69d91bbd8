// A mixture of normal distributions: moments, probabilities and quantiles.
import { normalCdf, normalPdf, normalQuantile } from "./normal.js";

export interface NormalComponent {
  /** Weights of a mixture sum to one. */
  readonly weight: number;
  readonly mean: number;
  readonly variance: number;
}
export type Mixture = readonly NormalComponent[];

export function mixtureMean(mixture: Mixture): number {
  return mixture.reduce((sum, { weight, mean }) => sum + weight * mean, 0);
}

export function mixtureStandardDeviation(mixture: Mixture): number {
  const centre = mixtureMean(mixture);
  const variance = mixture.reduce(
    (sum, { weight, mean, variance }) => sum + weight * (variance + (mean - centre) ** 2),
    0,
  );
  return Math.sqrt(variance);
}

/** Probability of a value at most x. */
export function mixtureCdf(mixture: Mixture, x: number): number {
  return mixture.reduce((sum, { weight, mean, variance }) => {
    if (variance > 0) return sum + weight * normalCdf((x - mean) / Math.sqrt(variance));
    return sum + (mean <= x ? weight : 0);
  }, 0);
}

/** Probability of a value outside [-limit, limit]. */
export function mixtureBeyond(mixture: Mixture, limit: number): number {
  return Math.min(1, Math.max(0, 1 - mixtureCdf(mixture, limit) + mixtureCdf(mixture, -limit)));
}

/** Whether a normal value is outside [-limit, limit] with a probability above a half. */
export function mostlyBeyond(mean: number, variance: number, limit: number): boolean {
  const sd = Math.sqrt(variance);
  const outside = Math.abs(mean) - limit;
  // Nearly always it is plain, and the distribution function is not needed: beyond 0.675 sd lies a quarter on each side.
  if (outside > 1e-6 * sd) return true;
  if (outside < -0.68 * sd) return false;
  return mixtureBeyond([{ weight: 1, mean, variance }], limit) > 0.5;
}

/** So many of Newton's steps that leave more than half of the range are followed by a halving. */
const patience = 3;

/**
 * The value that is exceeded with probability 1 - p, to 1e-9 of the range: by Newton steps, or by bisection if these leave
 * the range or do not converge.
 */
export function mixtureQuantile(mixture: Mixture, p: number): number {
  const present = mixture.filter(({ weight }) => weight > 0);
  const weight = Float64Array.from(present, (one) => one.weight);
  const mean = Float64Array.from(present, (one) => one.mean);
  // NaN without a variance.
  const sd = Float64Array.from(present, ({ variance }) =>
    variance > 0 ? Math.sqrt(variance) : NaN,
  );
  const edges = present.map(({ mean, variance }) => mean + normalQuantile(p) * Math.sqrt(variance));
  let low = Math.min(...edges);
  let high = Math.max(...edges);
  const enough = 1e-9 * (Math.abs(low) + Math.abs(high) + (high - low));
  let here = (low + high) / 2;
  let width = Number.POSITIVE_INFINITY;
  let slow = 0;
  while (high - low > enough) {
    // The distribution function and the density in one go; nothing of the density of what is certain.
    let below = 0;
    let density = 0;
    for (let k = 0; k < weight.length; k++) {
      if (sd[k]! > 0) {
        const z = (here - mean[k]!) / sd[k]!;
        below += weight[k]! * normalCdf(z);
        density += (weight[k]! * normalPdf(z)) / sd[k]!;
      } else if (mean[k]! <= here) below += weight[k]!;
    }
    const over = below - p;
    if (over < 0) low = here;
    else high = here;
    // A little too far, so that the quantile comes to lie between two values and not always on the same side of them.
    const newton = here - over / density - (Math.sign(over) * enough) / 2;
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    slow = high - low > width / 2 ? slow + 1 : 0;
    width = high - low;
    here = slow < patience && newton > low && newton < high ? newton : middle;
  }
  return (low + high) / 2;
}
