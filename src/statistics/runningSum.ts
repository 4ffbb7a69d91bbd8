// Sums over the neighbours of each value, from cumulative sums: the cost does not depend on the width.

/** @returns of each value and up to `half` on either side of it */
export function runningSum(column: Float64Array, half: number): Float64Array {
  const n = column.length;
  const sums = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) sums[i + 1] = sums[i]! + column[i]!;
  return column.map((_, i) => sums[Math.min(n, i + half + 1)]! - sums[Math.max(0, i - half)]!);
}
