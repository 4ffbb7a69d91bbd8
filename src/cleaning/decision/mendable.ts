// Probability of the causes that cleaning mends, and how clear the film is among them.

import { rollup, sum } from "d3-array";
import { type CauseName, causes } from "../../causes/index.js";
import { mixtureCdf, mixtureMean, mixtureStandardDeviation } from "../../statistics/mixture.js";
import type { Belief } from "./filmLeft.js";

const mended: ReadonlySet<CauseName> = new Set(
  causes.filter(({ mendedByCleaning }) => mendedByCleaning).map(({ name }) => name),
);

/** Probability that the cell has something that cleaning mends. */
export function probabilityMendable(belief: Belief): number {
  return belief.reduce((sum, { cause, weight }) => sum + (mended.has(cause) ? weight : 0), 0);
}

/** The hypotheses that hold something that cleaning mends, their weights summing to one; none where there are none. */
export function givenMendable(belief: Belief): Belief {
  const holding = belief.filter(({ cause, weight }) => mended.has(cause) && weight > 0);
  const total = holding.reduce((sum, { weight }) => sum + weight, 0);
  return holding.map((one) => ({ ...one, weight: one.weight / total }));
}

/** The film that cleaning could take off. */
export interface FilmGiven {
  readonly mean_ppm: number;
  readonly sd_ppm: number;
  /** That it is beyond half the target. */
  readonly probabilityClear: number;
}

/** The film among the hypotheses that hold something that cleaning mends; none where there is no such hypothesis. */
export function filmGiven(belief: Belief, target_ppm: number): FilmGiven {
  const holding = givenMendable(belief);
  if (holding.length === 0) return { mean_ppm: 0, sd_ppm: 0, probabilityClear: 0 };
  const film = holding.map(({ weight, filmMean_ppm, filmVariance }) => ({
    weight,
    mean: filmMean_ppm,
    variance: filmVariance,
  }));
  return {
    mean_ppm: mixtureMean(film),
    sd_ppm: mixtureStandardDeviation(film),
    probabilityClear: mixtureCdf(film, -target_ppm / 2),
  };
}

export interface LeadingCause {
  readonly cause: CauseName;
  readonly probability: number;
}

/** The cause with the most weight, and its weight. */
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
