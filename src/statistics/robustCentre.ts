// The median and quantiles of a column with gaps: a thin face on simple-statistics, which takes neither
// typed arrays in its types nor NaN in its data.
import { quantile as quantileOfNumbers, quickselect } from "simple-statistics";

/** @returns the median of the finite values, NaN where there is none */
export function median(values: ArrayLike<number>): number {
  const present = finite(values);
  if (present.length === 0) return Number.NaN;
  const middle = present.length >> 1;
  // It orders in place any list that is written by index.
  quickselect(present as unknown as number[], middle);
  if (present.length % 2 === 1) return present[middle]!;
  let below = present[0]!;
  for (let i = 1; i < middle; i++) if (present[i]! > below) below = present[i]!;
  return (below + present[middle]!) / 2;
}

/**
 * @param p probability, 0 to 1
 * @returns the quantile of the finite values, NaN where there is none
 */
export function quantile(values: ArrayLike<number>, p: number): number {
  const present = Array.from(finite(values));
  return present.length === 0 ? Number.NaN : quantileOfNumbers(present, p);
}

/** A copy of the values that are present. */
function finite(values: ArrayLike<number>): Float64Array {
  const present = new Float64Array(values.length);
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (Number.isFinite(value)) present[count++] = value;
  }
  return present.subarray(0, count);
}
