// A mixture of normal distributions as a number with its uncertainty.
import {
  type Mixture,
  mixtureMean,
  mixtureQuantile,
  mixtureStandardDeviation,
} from "../statistics/mixture.js";
import type { Estimate } from "./parts.js";

/** Mean of five quantiles: nearly the mean of the middle four fifths (judgement). Improbable extremes do not move it. */
const middle = [0.1, 0.3, 0.5, 0.7, 0.9];

export function estimate(mixture: Mixture): Estimate {
  const { standardUncertainty } = moments(mixture);
  return {
    ppm: middle.reduce((sum, share) => sum + mixtureQuantile(mixture, share), 0) / middle.length,
    standardUncertainty,
    // By definition.
    interval95: [mixtureQuantile(mixture, 0.025), mixtureQuantile(mixture, 0.975)],
  };
}

/** Unit: that of the mixture. */
export interface ValueWithUncertainty {
  readonly value: number;
  readonly standardUncertainty: number;
}

export function moments(mixture: Mixture): ValueWithUncertainty {
  return { value: mixtureMean(mixture), standardUncertainty: mixtureStandardDeviation(mixture) };
}
