// The median and quantiles of a column with gaps. Thousands of medians of typed arrays are needed, so they are computed
// here. Quantiles use simple-statistics, which takes neither typed arrays in its types nor NaN in its data.
import { quantileSorted } from "simple-statistics";

/** Work array in which values are sorted. */
let scratch = new Float64Array(1024);

/** This few values are sorted directly, which is quicker than choosing a pivot. */
const few = 24;

/** @returns the median of the finite values, NaN if there are none */
export function median(values: ArrayLike<number>): number {
  return middleOf(finite(values));
}

/** @returns the median distance from `centre` of the finite ones among the first values, NaN if there are none */
export function medianDeviation(values: ArrayLike<number>, centre: number, count: number): number {
  if (count > scratch.length) scratch = new Float64Array(2 * count);
  let finite = 0;
  for (let i = 0; i < count; i++) {
    const deviation = Math.abs(values[i]! - centre);
    if (deviation < Number.POSITIVE_INFINITY) scratch[finite++] = deviation;
  }
  return middleOf(finite);
}

/** The median of the first values of `scratch`, whose order is changed. */
function middleOf(count: number): number {
  if (count < 2) return count === 1 ? scratch[0]! : Number.NaN;
  const middle = count >> 1;
  if (count <= few) sortFew(count);
  else divideAt(middle, count);
  if (count % 2 === 1) return scratch[middle]!;
  let below = scratch[0]!;
  for (let i = 1; i < middle; i++) if (scratch[i]! > below) below = scratch[i]!;
  return (below + scratch[middle]!) / 2;
}

/**
 * @param p probability, 0 to 1
 * @returns the quantile of the finite values, NaN if there are none
 */
export function quantile(values: ArrayLike<number>, p: number): number {
  const count = finite(values);
  return count === 0
    ? Number.NaN
    : quantileSorted(Array.from(scratch.subarray(0, count).sort()), p);
}

/** Copies the finite values to the beginning of `scratch`, and returns their number. */
function finite(values: ArrayLike<number>): number {
  if (values.length > scratch.length) scratch = new Float64Array(2 * values.length);
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (Number.isFinite(value)) scratch[count++] = value;
  }
  return count;
}

/**
 * Hoare's selection: move to `middle` the value that sorting would put there, among the first values of `scratch`, with
 * none greater before it and none less behind it.
 */
function divideAt(middle: number, count: number): void {
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const pivot = scratch[middle]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (scratch[i]! < pivot) i++;
      while (scratch[j]! > pivot) j--;
      if (i > j) break;
      const value = scratch[i]!;
      scratch[i++] = scratch[j]!;
      scratch[j--] = value;
    }
    if (j < middle) low = i;
    if (i > middle) high = j;
  }
}

/** Insertion sort of the first values of `scratch`. */
function sortFew(count: number): void {
  for (let i = 1; i < count; i++) {
    const value = scratch[i]!;
    let k = i - 1;
    for (; k >= 0 && scratch[k]! > value; k--) scratch[k + 1] = scratch[k]!;
    scratch[k + 1] = value;
  }
}
