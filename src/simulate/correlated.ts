// Random profiles.
// Numbers without a source are judgement: fine enough that a straight line between two values does no harm.
import type { RandomStream } from "./random.js";

/** Values a length; between them the profile is straight. */
const perLength = 4;
/** The profile goes on so many lengths above the surface and below the deepest, where waves bring water from. */
const margin = 20;

/**
 * A random profile of unit variance that forgets itself over `length` dbar: correlation exp(-distance / length)
 * between its nodes (an autoregressive process of first order).
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
