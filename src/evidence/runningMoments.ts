// Mean and standard uncertainty of what is known as many possibilities, each added with its probability.

/** A value with its standard uncertainty, in one unit. */
export interface Uncertain {
  readonly value: number;
  readonly standardUncertainty: number;
}

export function runningMoments() {
  let weight = 0;
  let mean = 0;
  let spread = 0;
  return {
    /** @param p probabilities need not sum to 1 */
    add(p: number, value: number, standardDeviation = 0): void {
      weight += p;
      const away = value - mean;
      mean += (p / weight) * away;
      spread += p * (away * (value - mean) + standardDeviation * standardDeviation);
    },
    weight: (): number => weight,
    result: (): Uncertain => ({ value: mean, standardUncertainty: Math.sqrt(spread / weight) }),
  };
}
