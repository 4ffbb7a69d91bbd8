// What the coefficients say now, kept for good.
import type { Gaussian } from "../model/gaussian.js";
import type { Past } from "../model/past.js";

/**
 * The same with row . x, as it stands, kept among the past for each of the rows, and the shares as they are.
 * @param blocks rows whose covariance with each other is kept, block by block, all blocks of one length
 */
export function remember(
  gaussian: Gaussian,
  blocks: readonly (readonly Float64Array[])[],
  shares: readonly number[],
): Gaussian {
  const { mean, covariance, past } = gaussian;
  const size = mean.length;
  const block = blocks[0]!.length;
  const before = past?.mean.length ?? 0;
  const count = before + blocks.length * block;
  const kept: Past = {
    mean: new Float64Array(count),
    block,
    covariance: new Float64Array(count * block),
    cross: new Float64Array(count * size),
    shares: Float64Array.from([...(past?.shares ?? []), ...shares]),
  };
  if (past !== undefined) {
    kept.mean.set(past.mean);
    kept.covariance.set(past.covariance);
    kept.cross.set(past.cross);
  }
  for (const [n, rows] of blocks.entries()) {
    for (const [b, row] of rows.entries()) {
      const k = before + n * block + b;
      for (let j = 0; j < size; j++) kept.mean[k]! += row[j]! * mean[j]!;
      const cross = kept.cross.subarray(k * size, (k + 1) * size);
      for (let i = 0; i < size; i++)
        for (let j = 0; j < size; j++) cross[i]! += covariance[i * size + j]! * row[j]!;
      for (const [c, other] of rows.entries()) {
        let sum = 0;
        for (let i = 0; i < size; i++) sum += cross[i]! * other[i]!;
        kept.covariance[k * block + c] = sum;
      }
    }
  }
  return { mean, covariance, past: kept };
}
