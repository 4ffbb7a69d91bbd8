// The effective number of independent values for given weights.

/** (sum of weights)^2 / sum of squares [Kish1965]; 0 for none. */
export function effectiveNumber(weights: readonly number[]): number {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const squares = weights.reduce((total, weight) => total + weight * weight, 0);
  return squares > 0 ? sum ** 2 / squares : 0;
}
