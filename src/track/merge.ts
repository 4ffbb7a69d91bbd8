// Merge and prune: hypotheses with the same history and similar states become one, and only the most probable are kept.
import { group } from "d3-array";
import { collapseMixture } from "../model/collapseMixture.js";
import { eventKey } from "../model/eventHistory.js";
import type { Gaussian } from "../model/gaussian.js";
import { type Hypothesis, normalise } from "../model/hypothesis.js";
import { logSum } from "../statistics/logSum.js";

/** The maximum number of hypotheses, and the least weight relative to the best (judgement: a verdict changes at 0.1). */
const mostHypotheses = 80;
const leastLogWeight = Math.log(1e-7);

/**
 * Merge two Gaussians if their means differ by less than 2 standard deviations and their standard deviations by less than a
 * factor 2.5. The sum of a narrow and a wide Gaussian would lose the tail of the wide one, which later casts may need.
 * Differences below 3 units of a slot are ignored (judgement).
 */
const similarity = { apart: 2, factor: 2.5, blur: 3 };

/** Merge hypotheses with the same history and similar states, then prune. */
export function mergeAndPrune(hypotheses: readonly Hypothesis[]): readonly Hypothesis[] {
  const best = Math.max(...hypotheses.map(({ logWeight }) => logWeight));
  const alive = hypotheses.filter(({ logWeight }) => logWeight > best + leastLogWeight);
  const groups = group(alive, ({ events }) => eventKey(events));
  const merged = [...groups.values()].flatMap(groupSimilar).map(mergeOne);
  merged.sort((a, b) => b.logWeight - a.logWeight);
  return normalise(merged.slice(0, mostHypotheses));
}

/** Group each hypothesis with the most probable one that it is similar to; that one comes first. */
function groupSimilar(members: readonly Hypothesis[]): readonly (readonly Hypothesis[])[] {
  if (members.length === 1) return [members];
  const sets: Hypothesis[][] = [];
  for (const hypothesis of [...members].sort((a, b) => b.logWeight - a.logWeight)) {
    const set = sets.find(([first]) => areSimilar(first!.state, hypothesis.state));
    if (set === undefined) sets.push([hypothesis]);
    else set.push(hypothesis);
  }
  return sets;
}

function areSimilar(a: Gaussian, b: Gaussian): boolean {
  const { apart, factor, blur } = similarity;
  const size = a.mean.length;
  for (let i = 0; i < size; i++) {
    const one = a.covariance[i * (size + 1)]! + blur ** 2;
    const other = b.covariance[i * (size + 1)]! + blur ** 2;
    if ((a.mean[i]! - b.mean[i]!) ** 2 > apart ** 2 * (one + other)) return false;
    if (Math.max(one, other) > factor ** 2 * Math.min(one, other)) return false;
  }
  return true;
}

function mergeOne(members: readonly Hypothesis[]): Hypothesis {
  const first = members[0]!;
  if (members.length === 1) return first;
  const logWeight = logSum(members.map((h) => h.logWeight));
  const parts = members.map((h) => ({ share: Math.exp(h.logWeight - logWeight), state: h.state }));
  return { ...first, logWeight, state: collapseMixture(parts) };
}
