// Runs of scans with one repeated value of a sensor.
import { type ColumnSummary, sameReading, scansOfBlock } from "./columnSummary.js";

/** A block may belong to a run if this share of its scans repeat the one before (judgement). */
const mayBelong = 1 / 3;

/** @returns first and last scan of each run of at least `least` scans, in order */
export function repeatedRuns(
  column: Float64Array,
  survey: ColumnSummary,
  least: number,
): readonly (readonly [from: number, to: number])[] {
  const runs: [number, number][] = [];
  const same = (i: number) => Math.abs(column[i]! - column[i - 1]!) < sameReading;
  let next = survey.from + 1;
  for (let b = 0; b < survey.repeats.length; b++) {
    const [start, end] = scansOfBlock(survey, b);
    if (end <= next || survey.repeats[b]! < mayBelong * (end - start)) continue;
    // A run may begin in the block before.
    let i = Math.max(next, start);
    while (i > next && same(i) && same(i - 1)) i--;
    while (i < end) {
      if (!same(i)) {
        i++;
        continue;
      }
      const first = i - 1;
      while (i < survey.to && same(i)) i++;
      if (i - first >= least) runs.push([first, i - 1]);
    }
    next = Math.max(next, i);
  }
  return runs;
}
