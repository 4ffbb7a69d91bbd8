// A forecast that is a list of values, each as probable as the next, and how it scores.

/** Values in rising order, with the sum of all before each. */
export interface Sample {
  readonly values: Float64Array;
  readonly sumBefore: Float64Array;
  /** Mean distance of two draws. */
  readonly spread: number;
}

export function sampleOf(values: readonly number[]): Sample {
  const sorted = Float64Array.from(values).sort();
  const n = sorted.length;
  const sumBefore = new Float64Array(n + 1);
  let spread = 0;
  for (let i = 0; i < n; i++) {
    sumBefore[i + 1] = sumBefore[i]! + sorted[i]!;
    spread += 2 * sorted[i]! * (2 * i + 1 - n);
  }
  return { values: sorted, sumBefore, spread: spread / n ** 2 };
}

/** Continuous ranked probability score of the sample's step function [GneitingRaftery2007]. */
export function scoreOfSample({ values, sumBefore, spread }: Sample, observed: number): number {
  const n = values.length;
  const below = countBelow(values, observed);
  const distance =
    observed * below -
    sumBefore[below]! +
    (sumBefore[n]! - sumBefore[below]!) -
    observed * (n - below);
  return distance / n - spread / 2;
}

/** Share of the sample outside [from, to]. */
export function shareOutside({ values }: Sample, from: number, to: number): number {
  return 1 - (countBelow(values, to) - countBelow(values, from)) / values.length;
}

/** How many values are less than x. */
function countBelow(values: Float64Array, x: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle]! < x) low = middle + 1;
    else high = middle;
  }
  return low;
}
