// Find values, among a few with very different errors, that the majority contradicts. If one or two outweigh all others, a
// weighted centre follows them, right or wrong. So values are counted instead of weighted.

/** Fewest values that make a majority. */
const leastToAgree = 3;

/**
 * @param values of one quantity
 * @param sigma  standard deviation of each, in their unit
 * @param beyond number of standard deviations at which a value disagrees
 * @returns 0 for each value that agrees with the majority, otherwise its distance from it in its standard deviations; 0 for
 *   all if fewer than three agree, or if as many agree on another value
 */
export function majorityOutliers(
  values: readonly number[],
  sigma: readonly number[],
  beyond: number,
): readonly number[] {
  const agreeing = values.map((centre) =>
    values.map((value, j) => Math.abs(value - centre) <= beyond * sigma[j]!),
  );
  const votes = agreeing.map((agrees) => agrees.filter(Boolean).length);
  const most = Math.max(0, ...votes);
  const best = agreeing[votes.indexOf(most)];
  if (best === undefined || most < leastToAgree) return values.map(() => 0);
  const centre = meanOf(values, sigma, best);
  const tied = votes.some((count, i) => count === most && !best[i]);
  return values.map((value, i) => (tied || best[i] ? 0 : Math.abs(value - centre) / sigma[i]!));
}

function meanOf(
  values: readonly number[],
  sigma: readonly number[],
  among: readonly boolean[],
): number {
  let sum = 0;
  let weight = 0;
  for (const [i, value] of values.entries()) {
    if (!among[i]) continue;
    sum += value / sigma[i]! ** 2;
    weight += 1 / sigma[i]! ** 2;
  }
  return sum / weight;
}
