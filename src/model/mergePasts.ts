// The stored pasts of several hypotheses, mixed into one when the hypotheses merge.

import { applyTransition, type Entries, type Past } from "./past.js";
import { identityTransition, type Transition } from "./transition.js";

interface WeightedPast {
  readonly share: number;
  /** Mean of the coefficients. */
  readonly mean: Float64Array;
  readonly past: Past;
}

/** The past of a mixture. The shares sum to one, and the most probable part comes first. @param mean of the mixture */
export function mergePasts(parts: readonly WeightedPast[], mean: Float64Array): Past {
  const first = parts[0]!.past;
  const size = mean.length;
  const pasts = parts.map(({ past }) => past);
  const { older } = first;
  // If all parts have the same origin, only the updates since then differ, and mixing those is exact for the whole past.
  if (pasts.every((past) => past.recent === first.recent && past.older === older))
    return { ...first, since: mergeTransitions(parts, mean) };
  const brought = pasts.map(({ recent, since }) =>
    recent.map((own) => applyTransition(own, since)),
  );
  const recent = first.recent.map((_, cast) =>
    mergeEntries(
      parts,
      brought.map((own) => own[cast]!),
      mean,
    ),
  );
  const oneOrigin = pasts.every((past) => past.older === older);
  const since = oneOrigin ? mergeTransitions(parts, mean) : first.since;
  return {
    recent,
    since: identityTransition(size),
    ...(older === undefined ? {} : { older: { what: since, before: older } }),
  };
}

function mergeEntries(
  parts: readonly WeightedPast[],
  entries: readonly Entries[],
  mean: Float64Array,
): Entries {
  const { block, mean: of, shares } = entries[0]!;
  const count = of.length;
  const size = mean.length;
  const joined: Entries = {
    mean: new Float64Array(count),
    block,
    covariance: new Float64Array(count * block),
    cross: new Float64Array(count * size),
    shares: new Float64Array(shares.length),
  };
  for (const [part, { share }] of parts.entries()) {
    const own = entries[part]!;
    for (let k = 0; k < count; k++) joined.mean[k]! += share * own.mean[k]!;
    for (const [k, value] of own.shares.entries()) joined.shares[k]! += share * value;
  }
  for (const [part, { share, mean: at }] of parts.entries()) {
    const own = entries[part]!;
    for (let k = 0; k < count; k++) {
      const off = own.mean[k]! - joined.mean[k]!;
      const first = k - (k % block);
      for (let b = 0; b < block; b++) {
        const beside = own.mean[first + b]! - joined.mean[first + b]!;
        joined.covariance[k * block + b]! +=
          share * (own.covariance[k * block + b]! + off * beside);
      }
      for (let j = 0; j < size; j++) {
        joined.cross[k * size + j]! +=
          share * (own.cross[k * size + j]! + off * (at[j]! - mean[j]!));
      }
    }
  }
  return joined;
}

/** The mean of an entry with cross row c moves by c . shift, so the parts differ by c . (difference of their shifts). */
function mergeTransitions(parts: readonly WeightedPast[], mean: Float64Array): Transition {
  const size = mean.length;
  const mixed = {
    shift: new Float64Array(size),
    map: new Float64Array(size * size),
    loss: new Float64Array(size * size),
  };
  for (const { share, past } of parts) {
    const { shift } = past.since;
    for (let i = 0; i < size; i++) mixed.shift[i]! += share * shift[i]!;
  }
  for (const { share, mean: of, past } of parts) {
    const { shift, map, loss } = past.since;
    for (let i = 0; i < size; i++) {
      const off = shift[i]! - mixed.shift[i]!;
      for (let j = 0; j < size; j++) {
        const k = i * size + j;
        mixed.map[k]! += share * (map[k]! + off * (of[j]! - mean[j]!));
        mixed.loss[k]! += share * (loss[k]! - off * (shift[j]! - mixed.shift[j]!));
      }
    }
  }
  return mixed;
}
