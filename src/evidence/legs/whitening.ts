// Whiten the differences of thin layers: e[k] = own[k] x[k] - last[k] x[before] - earlier[k] x[second before] has unit
// variance and is independent from layer to layer, so that plain sums fit linear terms.
import type { LegNoise } from "./legNoise.js";

/** Weights of the whitening filter, 1/ppm: of a layer and of the two layers before it, spikes skipped. */
export interface Whitening {
  /** 0 for a spike. */
  readonly own: Float64Array;
  readonly last: Float64Array;
  readonly earlier: Float64Array;
  /** The previous and the next layer without spikes; -1 if there is none. */
  readonly before: Int32Array;
  readonly after: Int32Array;
}

export function whitening({ scatter, kept, turned, innovation, spike }: LegNoise): Whitening {
  const n = scatter.length;
  const [own, last, earlier] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
  const [before, after] = [new Int32Array(n).fill(-1), new Int32Array(n).fill(-1)];
  let memory = 1;
  let from = -1;
  for (let k = 0; k < n; k++) {
    memory *= kept[k]!;
    if (spike[k] === 1) continue;
    before[k] = from;
    if (from < 0) own[k] = 1 / scatter[k]!;
    else {
      after[from] = k;
      const second = before[from]!;
      // Across a spike the second value before is too far away for the AR(2) term.
      const turn = second >= 0 && second === k - 2 ? turned[k]! : 0;
      const sd =
        turn !== 0
          ? innovation[k]!
          : Math.max(innovation[k]!, scatter[k]! * Math.sqrt(1 - memory ** 2));
      own[k] = 1 / sd;
      last[k] = (memory * (1 - turn) * scatter[k]!) / scatter[from]! / sd;
      if (turn !== 0) earlier[k] = (turn * scatter[k]!) / scatter[second]! / sd;
    }
    from = k;
    memory = 1;
  }
  return { own, last, earlier, before, after };
}

export function whitened(
  { own, last, earlier, before }: Whitening,
  column: Float64Array,
): Float64Array {
  const found = new Float64Array(column.length);
  for (let k = 0; k < found.length; k++) {
    const from = Math.max(0, before[k]!);
    const second = Math.max(0, before[from]!);
    found[k] = own[k]! * column[k]! - last[k]! * column[from]! - earlier[k]! * column[second]!;
  }
  return found;
}
