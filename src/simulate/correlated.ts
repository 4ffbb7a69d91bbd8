// Random profiles.
// Numbers without a source are judgement: fine enough for linear interpolation between two values.
import type { RandomStream } from "./random.js";

/** Number of values in a correlation length; the profile is linear between them. */
const perLength = 4;
/**
 * The profile extends by this many lengths above the surface and below the deepest, because waves bring water from there.
 */
const margin = 20;

/**
 * A random profile of unit variance with correlation length `length`, dbar: the correlation between its nodes is
 * exp(-distance / length) (an autoregressive process of first order).
 */
export function correlatedProfile(
  stream: RandomStream,
  deepest_dbar: number,
  length_dbar: number,
): (pressure_dbar: number) => number {
  const step = length_dbar / perLength;
  const before = margin * perLength;
  const values = new Float64Array(Math.ceil(deepest_dbar / step) + 2 * before);
  const kept = Math.exp(-1 / perLength);
  const fresh = Math.sqrt(1 - kept * kept);
  values[0] = stream.normal();
  for (let i = 1; i < values.length; i++) {
    values[i] = kept * values[i - 1]! + fresh * stream.normal();
  }
  return (p) => {
    const x = Math.min(values.length - 2, Math.max(0, p / step + before));
    const i = Math.floor(x);
    return values[i]! + (x - i) * (values[i + 1]! - values[i]!);
  };
}
