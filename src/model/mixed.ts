// Many Gaussians as one.
import type { Gaussian } from "./gaussian.js";
import type { Past } from "./past.js";

/** One Gaussian with the mean and covariance of a mixture; the shares sum to one. */
export function mixed(
  parts: readonly { readonly share: number; readonly state: Gaussian }[],
): Gaussian {
  const size = parts[0]!.state.mean.length;
  const mean = new Float64Array(size);
  const covariance = new Float64Array(size * size);
  for (const { share, state } of parts) {
    for (let i = 0; i < size; i++) mean[i]! += share * state.mean[i]!;
  }
  for (const { share, state } of parts) {
    for (let i = 0; i < size; i++) {
      const off = state.mean[i]! - mean[i]!;
      for (let j = 0; j < size; j++) {
        covariance[i * size + j]! +=
          share * (state.covariance[i * size + j]! + off * (state.mean[j]! - mean[j]!));
      }
    }
  }
  const past = mixedPast(parts, mean);
  return past === undefined ? { mean, covariance } : { mean, covariance, past };
}

function mixedPast(
  parts: readonly { readonly share: number; readonly state: Gaussian }[],
  mean: Float64Array,
): Past | undefined {
  const count = parts[0]!.state.past?.mean.length;
  if (count === undefined) return undefined;
  const size = mean.length;
  const { block } = parts[0]!.state.past!;
  const joined: Past = {
    mean: new Float64Array(count),
    block,
    covariance: new Float64Array(count * block),
    cross: new Float64Array(count * size),
    shares: new Float64Array(parts[0]!.state.past!.shares.length),
  };
  for (const { share, state } of parts) {
    const past = state.past!;
    for (let k = 0; k < count; k++) joined.mean[k]! += share * past.mean[k]!;
    for (const [k, value] of past.shares.entries()) joined.shares[k]! += share * value;
  }
  for (const { share, state } of parts) {
    const past = state.past!;
    for (let k = 0; k < count; k++) {
      const off = past.mean[k]! - joined.mean[k]!;
      const first = k - (k % block);
      for (let b = 0; b < block; b++) {
        const beside = past.mean[first + b]! - joined.mean[first + b]!;
        joined.covariance[k * block + b]! +=
          share * (past.covariance[k * block + b]! + off * beside);
      }
      for (let j = 0; j < size; j++) {
        joined.cross[k * size + j]! +=
          share * (past.cross[k * size + j]! + off * (state.mean[j]! - mean[j]!));
      }
    }
  }
  return joined;
}
