// What the coefficients say now, kept for good.
import { type Gaussian, projected } from "../model/gaussian.js";
import type { Past } from "../model/past.js";

/** The same with row . x, as it stands, kept among the past for each of the rows, and the shares as they are. */
export function remember(
  gaussian: Gaussian,
  rows: readonly Float64Array[],
  shares: readonly number[],
): Gaussian {
  const { mean, covariance, past } = gaussian;
  const size = mean.length;
  const before = past?.mean.length ?? 0;
  const kept: Past = {
    mean: new Float64Array(before + rows.length),
    variance: new Float64Array(before + rows.length),
    cross: new Float64Array((before + rows.length) * size),
    shares: Float64Array.from([...(past?.shares ?? []), ...shares]),
  };
  if (past !== undefined) {
    kept.mean.set(past.mean);
    kept.variance.set(past.variance);
    kept.cross.set(past.cross);
  }
  for (const [k, row] of rows.entries()) {
    const { mean, variance } = projected(gaussian, row);
    kept.mean[before + k] = mean;
    kept.variance[before + k] = variance;
    for (let i = 0; i < size; i++) {
      let sum = 0;
      for (let j = 0; j < size; j++) sum += covariance[i * size + j]! * row[j]!;
      kept.cross[(before + k) * size + i] = sum;
    }
  }
  return { mean, covariance, past: kept };
}
