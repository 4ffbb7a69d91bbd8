// Mean and standard uncertainty of a mixture; each component is added with its probability.

/** A value with its standard uncertainty, in one unit. */
export interface Uncertain {
  readonly value: number;
  readonly standardUncertainty: number;
}

export function runningMoments() {
  const sums = { weight: 0, mean: 0, spread: 0 };
  return {
    /** @param p probabilities need not sum to 1 */
    add(p: number, value: number, standardDeviation = 0): void {
      sums.weight += p;
      const away = value - sums.mean;
      sums.mean += (p / sums.weight) * away;
      sums.spread += p * (away * (value - sums.mean) + standardDeviation * standardDeviation);
    },
    weight: (): number => sums.weight,
    result: (): Uncertain => ({
      value: sums.mean,
      standardUncertainty: Math.sqrt(sums.spread / sums.weight),
    }),
  };
}
