// Store the present estimate of some quantities, so that later casts can still improve it.
import type { Gaussian } from "../model/gaussian.js";
import { type Entries, withEntries } from "../model/past.js";

/**
 * The same state, with row . x as of now stored in its past for each row, together with the shares.
 * @param blocks rows whose covariance with each other is stored, block by block; all blocks have the same length
 */
export function storeForSmoothing(
  gaussian: Gaussian,
  blocks: readonly (readonly Float64Array[])[],
  shares: readonly number[],
): Gaussian {
  const { mean, covariance, past } = gaussian;
  const size = mean.length;
  const block = blocks[0]!.length;
  const count = blocks.length * block;
  const entries: Entries = {
    mean: new Float64Array(count),
    block,
    covariance: new Float64Array(count * block),
    cross: new Float64Array(count * size),
    shares: Float64Array.from(shares),
  };
  for (const [n, rows] of blocks.entries()) {
    for (const [b, row] of rows.entries()) {
      const k = n * block + b;
      for (let j = 0; j < size; j++) entries.mean[k]! += row[j]! * mean[j]!;
      const cross = entries.cross.subarray(k * size, (k + 1) * size);
      for (let j = 0; j < size; j++) {
        const weight = row[j]!;
        if (weight === 0) continue;
        for (let i = 0; i < size; i++) cross[i]! += covariance[i * size + j]! * weight;
      }
      for (const [c, other] of rows.entries()) {
        let sum = 0;
        for (let i = 0; i < size; i++) sum += cross[i]! * other[i]!;
        entries.covariance[k * block + c] = sum;
      }
    }
  }
  return { mean, covariance, past: withEntries(past, entries, size) };
}
