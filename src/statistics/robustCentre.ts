// The median and quantiles of a column with gaps: a thin face on simple-statistics, which takes neither
// typed arrays in its types nor NaN in its data.
import { median as medianOfNumbers, quantile as quantileOfNumbers } from "simple-statistics";

/** @returns the median of the finite values, NaN where there is none */
export function median(values: ArrayLike<number>): number {
  const present = finite(values);
  return present.length === 0 ? Number.NaN : medianOfNumbers(present);
}

/**
 * @param p probability, 0 to 1
 * @returns the quantile of the finite values, NaN where there is none
 */
export function quantile(values: ArrayLike<number>, p: number): number {
  const present = finite(values);
  return present.length === 0 ? Number.NaN : quantileOfNumbers(present, p);
}

/** The values that are present, as the plain array that simple-statistics asks for. */
function finite(values: ArrayLike<number>): number[] {
  const present: number[] = [];
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (Number.isFinite(value)) present.push(value);
  }
  return present;
}
