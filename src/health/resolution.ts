// The step in which a column is written, where that is coarser than the sensor's noise.
import { type Survey, sameReading } from "./surveyColumn.js";

/** From about this many pairs of neighbours, evenly spread (judgement: speed). */
const sample = 2000;

/** The least difference between neighbours that are not the same, in the unit of the column; 0 where all are. */
export function resolutionOf(column: Float64Array, { from, to }: Survey): number {
  const stride = Math.max(1, Math.floor((to - from) / sample));
  let least = Number.POSITIVE_INFINITY;
  for (let i = from + 1; i < to; i += stride) {
    const step = Math.abs(column[i]! - column[i - 1]!);
    if (step > sameReading && step < least) least = step;
  }
  return Number.isFinite(least) ? least : 0;
}
