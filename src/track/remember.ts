// What the coefficients say now, kept for good.
import { type Gaussian, projected } from "../model/gaussian.js";
import { type Entries, withEntries } from "../model/past.js";

/** The same with row . x, as it stands, kept among the past for each of the rows, and the shares as they are. */
export function remember(
  gaussian: Gaussian,
  rows: readonly Float64Array[],
  shares: readonly number[],
): Gaussian {
  const { mean, covariance, past } = gaussian;
  const size = mean.length;
  const entries: Entries = {
    mean: new Float64Array(rows.length),
    variance: new Float64Array(rows.length),
    cross: new Float64Array(rows.length * size),
    shares: Float64Array.from(shares),
  };
  for (const [k, row] of rows.entries()) {
    const own = projected(gaussian, row);
    entries.mean[k] = own.mean;
    entries.variance[k] = own.variance;
    for (let i = 0; i < size; i++) {
      let sum = 0;
      for (let j = 0; j < size; j++) sum += covariance[i * size + j]! * row[j]!;
      entries.cross[k * size + i] = sum;
    }
  }
  return { mean, covariance, past: withEntries(past, entries, size) };
}
