// Probability of the causes that cleaning removes, and how clear the film is under them.

import { rollup, sum } from "d3-array";
import { type CauseName, causes } from "../../causes/index.js";
import { estimate } from "../../model/estimate.js";
import type { Estimate } from "../../model/parts.js";
import { mixtureCdf } from "../../statistics/mixture.js";
import type { Belief } from "./filmLeft.js";

const mended: ReadonlySet<CauseName> = new Set(
  causes.filter(({ removedByCleaning }) => removedByCleaning).map(({ name }) => name),
);

/** Probability that the cell has a problem that cleaning removes. */
export function probabilityRemovable(belief: Belief): number {
  return belief.reduce((sum, { cause, weight }) => sum + (mended.has(cause) ? weight : 0), 0);
}

/** The hypotheses with such a problem, with weights that sum to one; empty if there are none. */
export function ifRemovable(belief: Belief): Belief {
  const holding = belief.filter(({ cause, weight }) => mended.has(cause) && weight > 0);
  const total = sum(holding, ({ weight }) => weight);
  return holding.map((one) => ({ ...one, weight: one.weight / total }));
}

/** The film that cleaning could remove. */
export interface FilmGiven {
  /** As the sentence of the cause gives it, so that a page has one number for it. */
  readonly size: Omit<Estimate, "interval95">;
  /** Probability that it is beyond half the target. */
  readonly probabilityClear: number;
}

/** The film in the hypotheses with a problem that cleaning removes; undefined without such a hypothesis. */
export function filmGiven(belief: Belief, target_ppm: number): FilmGiven {
  const holding = ifRemovable(belief);
  if (holding.length === 0) {
    return { size: { ppm: 0, standardUncertainty: 0 }, probabilityClear: 0 };
  }
  const film = holding.map(({ weight, filmMean_ppm, filmVariance }) => ({
    weight,
    mean: filmMean_ppm,
    variance: filmVariance,
  }));
  return {
    size: estimate(film),
    probabilityClear: mixtureCdf(film, -target_ppm / 2),
  };
}

/** Probability that cleaning has nothing to remove and that the gain is above minus half the target. */
export function probabilityReadsRight(belief: Belief, target_ppm: number): number {
  const gains = belief.flatMap((one) =>
    mended.has(one.cause)
      ? []
      : {
          weight: one.weight,
          mean: one.cleanMean_ppm + one.filmMean_ppm,
          variance: one.cleanVariance + 2 * one.covariance + one.filmVariance,
        },
  );
  const without = sum(gains, ({ weight }) => weight);
  return Math.max(0, without - mixtureCdf(gains, -target_ppm / 2));
}

export interface LeadingCause {
  readonly cause: CauseName;
  readonly probability: number;
}

/** The most probable cause, and its weight. */
export function leadingCause(belief: Belief): LeadingCause {
  const weights = rollup(
    belief,
    (same) => sum(same, ({ weight }) => weight),
    ({ cause }) => cause,
  );
  let leading: CauseName = "undetermined";
  let most = 0;
  for (const [cause, weight] of weights) {
    if (weight > most) [leading, most] = [cause, weight];
  }
  return { cause: leading, probability: Math.min(1, most) };
}
