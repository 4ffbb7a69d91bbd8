// The step in which a column is written, if that is coarser than the sensor's noise.
import { type ColumnSummary, sameReading } from "./columnSummary.js";

/** From about this many pairs of neighbours, evenly spaced (judgement: speed). */
const sample = 2000;

/** The smallest difference between unequal neighbours, in the unit of the column; 0 if all are equal. */
export function resolutionOf(column: Float64Array, { from, to }: ColumnSummary): number {
  const stride = Math.max(1, Math.floor((to - from) / sample));
  let least = Number.POSITIVE_INFINITY;
  for (let i = from + 1; i < to; i += stride) {
    const step = Math.abs(column[i]! - column[i - 1]!);
    if (step > sameReading && step < least) least = step;
  }
  return Number.isFinite(least) ? least : 0;
}
