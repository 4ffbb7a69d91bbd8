// A mixture of normal distributions as a number with its uncertainty.
import {
  type Mixture,
  mixtureMean,
  mixtureQuantile,
  mixtureStandardDeviation,
} from "../statistics/mixture.js";

/** A quantity in ppm of conductivity. */
export interface Estimate {
  readonly ppm: number;
  readonly standardUncertainty: number;
  readonly interval95: readonly [number, number];
}

/** The median: a hypothesis that is improbable and far off does not move it. */
export function estimate(mixture: Mixture): Estimate {
  const { standardUncertainty } = moments(mixture);
  return {
    ppm: mixtureQuantile(mixture, 0.5),
    standardUncertainty,
    interval95: [mixtureQuantile(mixture, 0.025), mixtureQuantile(mixture, 0.975)],
  };
}

/** In whatever unit the mixture has. */
export interface Moments {
  readonly value: number;
  readonly standardUncertainty: number;
}

export function moments(mixture: Mixture): Moments {
  return { value: mixtureMean(mixture), standardUncertainty: mixtureStandardDeviation(mixture) };
}
