// From hypotheses to a number with its uncertainty.

import { projected } from "../../model/gaussian.js";
import type { Hypothesis } from "../../model/hypothesis.js";
import {
  type Mixture,
  mixtureMean,
  mixtureQuantile,
  mixtureStandardDeviation,
} from "../../statistics/mixture.js";
import type { Estimate } from "../verdict.js";

/** The distribution of row . x over all hypotheses. */
export function mixtureOf(hypotheses: readonly Hypothesis[], row: Float64Array): Mixture {
  return hypotheses.map(({ logWeight, state }) => ({
    weight: Math.exp(logWeight),
    ...projected(state, row),
  }));
}

export function estimate(mixture: Mixture): Estimate {
  return {
    ppm: mixtureMean(mixture),
    standardUncertainty: mixtureStandardDeviation(mixture),
    interval95: [mixtureQuantile(mixture, 0.025), mixtureQuantile(mixture, 0.975)],
  };
}
