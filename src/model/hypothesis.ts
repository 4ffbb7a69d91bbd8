// A hypothesis: an event history, its probability, and the state vector under that history.
import { logSum } from "../statistics/logSum.js";
import type { Mixture } from "../statistics/mixture.js";
import type { EventHistory } from "./eventHistory.js";
import { type Gaussian, projected } from "./gaussian.js";
import type { Updates } from "./updates.js";

export interface Hypothesis {
  readonly logWeight: number;
  readonly state: Gaussian;
  readonly events: EventHistory;
  /** The updates that led to it; absent at the start. */
  readonly updates?: Updates;
}

/** Scale the weights to sum to one. */
export function normalise(hypotheses: readonly Hypothesis[]): readonly Hypothesis[] {
  const total = logSum(hypotheses.map(({ logWeight }) => logWeight));
  return hypotheses.map((h) => ({ ...h, logWeight: h.logWeight - total }));
}

/** The sum of the weights. */
export function weightOf(hypotheses: readonly Hypothesis[]): number {
  return hypotheses.reduce((sum, { logWeight }) => sum + Math.exp(logWeight), 0);
}

/** The distribution of row . x over all hypotheses. */
export function mixtureOf(hypotheses: readonly Hypothesis[], row: Float64Array): Mixture {
  return hypotheses.map(({ logWeight, state }) => ({
    weight: Math.exp(logWeight),
    ...projected(state, row),
  }));
}
