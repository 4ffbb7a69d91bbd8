// The film at the next station after a cleaning: the share that the cleaning leaves, plus the growth until then.
import type { RecoveryPrior } from "../../model/recovery.js";
import {
  type Mixture,
  mixtureCdf,
  mixtureMean,
  mixtureStandardDeviation,
  type NormalComponent,
} from "../../statistics/mixture.js";
import type { FilmComponent } from "../../track/cellView.js";

/** One hypothesis about a cell now. */
export type BeliefComponent = FilmComponent;
/** Weights sum to one. */
export type Belief = readonly BeliefComponent[];

interface FilmLeft {
  readonly mean_ppm: number;
  readonly sd_ppm: number;
  readonly probabilityWithinTarget: number;
}

/**
 * Only the film counts, because bottles correct an error of the clean gain. A film can only narrow the cell, so it is
 * within the target if it is above -target.
 */
export function filmLeft(belief: Belief, prior: RecoveryPrior, target_ppm: number): FilmLeft {
  const left = belief.flatMap((component) => branches(component, prior));
  return {
    mean_ppm: mixtureMean(left),
    sd_ppm: mixtureStandardDeviation(left),
    probabilityWithinTarget: Math.min(1, Math.max(0, 1 - mixtureCdf(left, -target_ppm))),
  };
}

/** Without cleaning all of the film stays. */
export const untouched: RecoveryPrior = {
  probabilityWorks: 1,
  retainedIfWorks: { mean: 1, sd: 0 },
  retainedIfFails: { mean: 1, sd: 0 },
};

/**
 * Film x retained share + growth, all independent: mean and variance of a product of independent numbers are exact; its
 * distribution is taken as normal.
 */
function branches(component: BeliefComponent, prior: RecoveryPrior): Mixture {
  const { weight, filmMean_ppm, filmVariance, growthMean_ppm, growthVariance } = component;
  const { probabilityWorks, retainedIfWorks, retainedIfFails } = prior;
  const branch = (
    probability: number,
    { mean, sd }: RecoveryPrior["retainedIfWorks"],
  ): NormalComponent => ({
    weight: weight * probability,
    mean: mean * filmMean_ppm + growthMean_ppm,
    variance:
      mean ** 2 * filmVariance + sd ** 2 * (filmMean_ppm ** 2 + filmVariance) + growthVariance,
  });
  return [branch(probabilityWorks, retainedIfWorks), branch(1 - probabilityWorks, retainedIfFails)];
}
