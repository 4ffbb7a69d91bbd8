// How the two cells of a package respond differently: thermal lag, and water that arrives later.
import { depthScatter_ppm } from "../../model/pairDesign.js";
import { madScale } from "../../statistics/madScale.js";
import { robustRegression } from "../../statistics/robustRegression.js";
import type { PairDifference } from "./pairDifference.js";
import type { PairDifferences } from "./pairDifferences.js";

/** Assumed scatter if there are too few differences to estimate it, ppm (judgement). */
export const unknownScatter_ppm = 10;
/** With fewer places the responses of the cells cannot be told from their gains (judgement). */
const leastPlaces = 8;

/** Response of the first cell minus that of the second on this cast. */
export interface ResponseDifference {
  /** Thermal lag, as a factor of the usual. */
  readonly lag: number;
  /** Delay, dbar of the path. */
  readonly delay: number;
}

/** What the difference of the responses does to the pair at a place, ppm. */
export function effectOf(
  response: ResponseDifference,
  at: Pick<PairDifference, "lag" | "delay">,
): number {
  return response.lag * at.lag + response.delay * at.delay;
}

/** Fitted so that the parts are compared without it. 0 if there is too little information. */
export function responseDifference(byLeg: PairDifferences["byLeg"]): ResponseDifference {
  const parts = (["down", "up"] as const).flatMap((leg) =>
    (byLeg[leg] ?? []).map((part) => ({ ...part, up: leg === "up" ? 1 : 0 })),
  );
  if (parts.length < leastPlaces || parts.every(({ lag }) => lag === 0))
    return { lag: 0, delay: 0 };
  const scatter = neighbourScatter(parts.map(({ value }) => value));
  const fit = robustRegression(
    parts.map(({ lag, delay, up }) => [1, lag, delay, up]),
    parts.map(({ value }) => value),
    parts.map(() => Math.hypot(scatter, depthScatter_ppm)),
  );
  return { lag: fit?.coefficients[1] ?? 0, delay: fit?.coefficients[2] ?? 0 };
}

/** Scatter from differences of neighbours, which is insensitive to a trend or a step, ppm. */
export function neighbourScatter(values: readonly number[]): number {
  const steps = values.slice(1).map((value, i) => (value - values[i]!) / Math.SQRT2);
  // Two differences give no scatter, and the usual scatter counts as three (judgement).
  const seen = steps.length < 3 ? 0 : madScale(steps, 0);
  const share = steps.length / (steps.length + 3);
  return Math.hypot(Math.sqrt(share) * seen, Math.sqrt(1 - share) * unknownScatter_ppm);
}
