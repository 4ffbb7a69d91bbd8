// The usual response of one cell: a robust mean over earlier casts.
import { madScale, toNormal } from "../statistics/madScale.js";
import { biweight } from "../statistics/robustRegression.js";
import { weightedMedian } from "../statistics/weightedMedian.js";

/** A value with its standard uncertainty. */
export interface KnownValue {
  readonly value: number;
  readonly standardUncertainty: number;
}

export interface UsualValue extends KnownValue {
  /** Standard deviation between casts, beyond their own uncertainties. */
  readonly castToCast: number;
  /** Number of casts. */
  readonly casts: number;
}

/** Standard deviation between the casts of a sound cell. */
interface CastScatter {
  readonly standardDeviation: number;
  /** If true, that is the lower limit, and a larger scatter of the casts is used. */
  readonly isLowerLimit: boolean;
}

/** Rounds in which centre and weights are refined (judgement). */
const rounds = 5;

/**
 * A robust mean: a start from the median, then the biweight [BeatonTukey1974]; the prior counts as one more value.
 * @param seen on the casts before, in any order
 * @returns undefined without values and without a prior
 */
export function usualResponse(
  seen: readonly KnownValue[],
  castScatter: CastScatter,
  prior?: KnownValue,
): UsualValue | undefined {
  if (seen.length === 0) {
    return prior && { ...prior, castToCast: castScatter.standardDeviation, casts: 0 };
  }
  const own = robustMean(seen, castScatter);
  if (prior === undefined) return own;
  const [a, b] = [own.standardUncertainty ** -2, prior.standardUncertainty ** -2];
  return {
    ...own,
    value: (a * own.value + b * prior.value) / (a + b),
    standardUncertainty: 1 / Math.sqrt(a + b),
  };
}

function robustMean(
  seen: readonly KnownValue[],
  { standardDeviation, isLowerLimit }: CastScatter,
): UsualValue {
  const values = seen.map(({ value }) => value);
  let centre = weightedMedian(
    values,
    seen.map(({ standardUncertainty: u }) => 1 / Math.hypot(u, standardDeviation) ** 2),
  );
  const scatter = madScale(values, centre);
  const own =
    madScale(
      seen.map(({ standardUncertainty }) => standardUncertainty),
      0,
    ) / toNormal;
  const castToCast = isLowerLimit
    ? Math.max(standardDeviation, Math.sqrt(Math.max(0, scatter ** 2 - own ** 2)))
    : standardDeviation;
  const casts = seen.length;
  let total = 0;
  for (let round = 0; round < rounds; round++) {
    let sum = 0;
    total = 0;
    for (const { value, standardUncertainty } of seen) {
      const deviation = Math.hypot(standardUncertainty, castToCast);
      const weight = biweight((value - centre) / deviation) / deviation ** 2;
      sum += weight * value;
      total += weight;
    }
    // Two casts far from each other: neither is the usual, which is somewhere between.
    if (!(total > 0)) return { value: centre, standardUncertainty: scatter, castToCast, casts };
    centre = sum / total;
  }
  return { value: centre, standardUncertainty: 1 / Math.sqrt(total), castToCast, casts };
}
