// The weighted median: half of the weight lies on either side. Breakdown point one half.

/** @returns the weighted median of the finite values, NaN if there is none */
export function weightedMedian(values: readonly number[], weights: readonly number[]): number {
  const order = values
    .map((_, i) => i)
    .filter((i) => Number.isFinite(values[i]) && weights[i]! > 0)
    .sort((a, b) => values[a]! - values[b]!);
  const total = order.reduce((sum, i) => sum + weights[i]!, 0);
  let below = 0;
  for (const [position, i] of order.entries()) {
    below += weights[i]!;
    if (below > total / 2) return values[i]!;
    if (below === total / 2) return (values[i]! + values[order[position + 1]!]!) / 2;
  }
  return Number.NaN;
}
