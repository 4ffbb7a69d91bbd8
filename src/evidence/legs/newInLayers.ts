// Thin layers whose differences remember each other, as what is new in each beside the one before: of unit variance and
// independent, so that linear terms are fitted by plain sums.
import type { LegNoise } from "./legNoise.js";

/** Weights of a layer and of the two before that are no spikes, which leave what is new, in its standard deviations. */
export interface NewIn {
  /** 0 for a spike. */
  readonly own: Float64Array;
  readonly last: Float64Array;
  readonly earlier: Float64Array;
  /** The layers before and after that are no spikes; -1 for none. */
  readonly before: Int32Array;
  readonly after: Int32Array;
}

export function newIn({ scatter, kept, turned, fresh, spike }: LegNoise): NewIn {
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
      // Beyond a spike only the value next to it tells.
      const turn = second >= 0 && second === k - 2 ? turned[k]! : 0;
      const sd =
        turn !== 0 ? fresh[k]! : Math.max(fresh[k]!, scatter[k]! * Math.sqrt(1 - memory ** 2));
      own[k] = 1 / sd;
      last[k] = (memory * (1 - turn) * scatter[k]!) / scatter[from]! / sd;
      if (turn !== 0) earlier[k] = (turn * scatter[k]!) / scatter[second]! / sd;
    }
    from = k;
    memory = 1;
  }
  return { own, last, earlier, before, after };
}

export function fresh({ own, last, earlier, before }: NewIn, column: Float64Array): Float64Array {
  const found = new Float64Array(column.length);
  for (let k = 0; k < found.length; k++) {
    const from = Math.max(0, before[k]!);
    const second = Math.max(0, before[from]!);
    found[k] = own[k]! * column[k]! - last[k]! * column[from]! - earlier[k]! * column[second]!;
  }
  return found;
}

/** A linear term, and the standard deviation of its size beforehand. */
export interface Term {
  readonly column: Float64Array;
  readonly prior: number;
}

/** Columns for which X'X + prior precision is the unit matrix: what is new in them, and as they are. */
export interface Orthonormal {
  readonly fresh: readonly Float64Array[];
  readonly raw: readonly Float64Array[];
  /** Of each of the terms in them, over its prior. */
  readonly shares: readonly Float64Array[];
  /** Half the logarithm of prior over posterior precision. */
  readonly log: number;
}

/** Gram and Schmidt, the priors carried as one more row for each column. */
export function orthonormal(columns: readonly Term[], layers: NewIn): Orthonormal {
  const done: (readonly [Float64Array, Float64Array, Float64Array])[] = [];
  let log = 0;
  for (const [j, { column, prior }] of columns.entries()) {
    const ofPrior = new Float64Array(columns.length);
    ofPrior[j] = 1 / prior;
    const one = [fresh(layers, column), column.slice(), ofPrior] as const;
    for (const other of done) {
      const share = dot(one[0], other[0]) + dot(one[2], other[2]);
      for (const [i, own] of one.entries()) addTo(own, -share, other[i]!);
    }
    const length = Math.sqrt(dot(one[0], one[0]) + dot(one[2], one[2]));
    log -= Math.log(length * prior);
    for (const own of one) addTo(own, 1 / length - 1, own);
    done.push(one);
  }
  return {
    fresh: done.map(([own]) => own),
    raw: done.map(([, own]) => own),
    shares: done.map(([, , own]) => own),
    log,
  };
}

function addTo(column: Float64Array, share: number, other: Float64Array): void {
  for (let k = 0; k < column.length; k++) column[k]! += share * other[k]!;
}

/** Log of the evidence for these columns against nothing. */
export function explains({ fresh, log }: Orthonormal, y: Float64Array): number {
  return fresh.reduce((sum, column) => sum + 0.5 * dot(column, y) ** 2, log);
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}
