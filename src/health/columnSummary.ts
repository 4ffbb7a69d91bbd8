// One pass over a column in blocks: its changes from scan to scan, and the blocks that must be examined scan by scan.
// Second differences remove a constant gradient and leave the noise.

export interface ColumnSummary {
  readonly from: number;
  readonly to: number;
  /** Number of scans in a block; the last also has the remainder. */
  readonly block: number;
  /** Mean size of second differences, one for each block; NaN if a reading is missing. */
  readonly mean: Float64Array;
  /** The largest of them. */
  readonly most: Float64Array;
  /** Number of scans that repeat the one before. */
  readonly repeats: Uint32Array;
}

/** Duration of a block, s, with its fewest and most scans (judgement). */
const block_s = 2.5;
const leastScans = 16;
const mostScans = 64;
/** Readings closer than this count as equal: a change of unit leaves rounding errors of 1e-15 (judgement). */
export const sameReading = 1e-9;

export function summariseColumn(
  column: Float64Array,
  from: number,
  to: number,
  interval_s: number,
): ColumnSummary {
  const wanted = Math.round(block_s / interval_s);
  const block = Math.max(leastScans, Math.min(mostScans, wanted));
  // A second difference takes three scans, by definition.
  const blocks = to - from < 3 ? 0 : Math.max(1, Math.floor((to - from) / block));
  const mean = new Float64Array(blocks);
  const most = new Float64Array(blocks);
  const repeats = new Uint32Array(blocks);
  for (let b = 0; b < blocks; b++) {
    const end = b === blocks - 1 ? to : from + (b + 1) * block;
    const start = Math.max(from + 2, from + b * block);
    let before = column[start - 2]!;
    let last = column[start - 1]!;
    let sum = 0;
    let largest = 0;
    let same = 0;
    for (let i = start; i < end; i++) {
      const value = column[i]!;
      const second = Math.abs(value - last - last + before);
      sum += second;
      if (second > largest) largest = second;
      if (Math.abs(value - last) < sameReading) same++;
      before = last;
      last = value;
    }
    mean[b] = sum / (end - start);
    most[b] = largest;
    repeats[b] = same;
  }
  return { from, to, block, mean, most, repeats };
}

/** First scan of a block and the one after its last. */
export function scansOfBlock(
  { from, to, block, mean }: ColumnSummary,
  b: number,
): [number, number] {
  return [from + b * block, b === mean.length - 1 ? to : from + (b + 1) * block];
}
