// The median and quantiles of a column with gaps: a thin face on simple-statistics, which takes neither
// typed arrays in its types nor NaN in its data.
import { quantile as quantileOfNumbers, quickselect } from "simple-statistics";

/** Where values are put in order: medians of a few values are asked for by the thousand. */
let scratch = new Float64Array(1024);

/** So few values are put in order one by one, which is quicker than to choose where to divide them. */
const few = 24;

/** @returns the median of the finite values, NaN where there is none */
export function median(values: ArrayLike<number>): number {
  const count = finite(values);
  if (count < 2) return count === 1 ? scratch[0]! : Number.NaN;
  const middle = count >> 1;
  if (count <= few) sortFew(count);
  // It orders in place whatever is written by index.
  else quickselect(scratch as unknown as number[], middle, 0, count - 1);
  if (count % 2 === 1) return scratch[middle]!;
  let below = scratch[0]!;
  for (let i = 1; i < middle; i++) if (scratch[i]! > below) below = scratch[i]!;
  return (below + scratch[middle]!) / 2;
}

/**
 * @param p probability, 0 to 1
 * @returns the quantile of the finite values, NaN where there is none
 */
export function quantile(values: ArrayLike<number>, p: number): number {
  const count = finite(values);
  return count === 0 ? Number.NaN : quantileOfNumbers(Array.from(scratch.subarray(0, count)), p);
}

/** Copies the values that are present to the beginning of `scratch`, and returns how many they are. */
function finite(values: ArrayLike<number>): number {
  if (values.length > scratch.length) scratch = new Float64Array(2 * values.length);
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (Number.isFinite(value)) scratch[count++] = value;
  }
  return count;
}

/** By insertion, the first values of `scratch`. */
function sortFew(count: number): void {
  for (let i = 1; i < count; i++) {
    const value = scratch[i]!;
    let k = i - 1;
    for (; k >= 0 && scratch[k]! > value; k--) scratch[k + 1] = scratch[k]!;
    scratch[k + 1] = value;
  }
}
