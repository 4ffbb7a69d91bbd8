// Which causes cleaning mends: the causes themselves say so.

import { type CauseName, causes } from "../../causes/index.js";
import type { Belief } from "./filmLeft.js";

const mended: ReadonlySet<CauseName> = new Set(
  causes.filter(({ mendedByCleaning }) => mendedByCleaning).map(({ name }) => name),
);

/** Probability that the cell has something that cleaning mends. */
export function probabilityMendable(belief: Belief): number {
  return belief.reduce((sum, { cause, weight }) => sum + (mended.has(cause) ? weight : 0), 0);
}

/** The cause with the most weight, and its weight. */
export function leadingCause(belief: Belief): {
  readonly cause: CauseName;
  readonly probability: number;
} {
  const weights = new Map<CauseName, number>();
  for (const { cause, weight } of belief) weights.set(cause, (weights.get(cause) ?? 0) + weight);
  let leading: CauseName = "undetermined";
  let most = 0;
  for (const [cause, weight] of weights) {
    if (weight > most) [leading, most] = [cause, weight];
  }
  return { cause: leading, probability: Math.min(1, most) };
}
