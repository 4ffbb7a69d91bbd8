// A mixture of Gaussians replaced by one Gaussian.
import type { Gaussian } from "./gaussian.js";
import { mergePasts } from "./mergePasts.js";

/** One Gaussian with the mean and covariance of a mixture; the shares sum to one. */
export function collapseMixture(
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
  if (parts[0]!.state.past === undefined) return { mean, covariance };
  const pasts = parts.map(({ share, state }) => ({ share, mean: state.mean, past: state.past! }));
  return { mean, covariance, past: mergePasts(pasts, mean) };
}
