// Small-scale salinity as the bounds hold it: a process that forgets itself over a length, at nodes along the cast, and
// what data that hold it as well tell of the few numbers asked for.

/** Nodes to a length, as in src/simulate/correlated.ts, and what one keeps of the one before. */
export const nodesPerLength = 4;
const kept = Math.exp(-1 / nodesPerLength);

/** The nodes, of unit variance: their information, and what they share with the numbers asked for. */
export interface Field {
  readonly diagonal: Float64Array;
  readonly beside: Float64Array;
  /** One column a number. */
  readonly shared: readonly Float64Array[];
  readonly asked: readonly Float64Array[];
}

/** @param numbers how many are asked for */
export function newField(nodes: number, numbers: number): Field {
  const fresh = 1 - kept ** 2;
  const diagonal = new Float64Array(nodes).fill((1 + kept ** 2) / fresh);
  diagonal[0] = 1 / fresh;
  diagonal[nodes - 1] = 1 / fresh;
  const columns = (length: number) =>
    Array.from({ length: numbers }, () => new Float64Array(length));
  return {
    diagonal,
    beside: new Float64Array(nodes - 1).fill(-kept / fresh),
    shared: columns(nodes),
    asked: columns(numbers),
  };
}

/** A datum: the numbers, each times its weight, + `size` x the field at a place between nodes + an error. */
export function see(
  { diagonal, beside, shared, asked }: Field,
  at: number,
  size: number,
  weights: readonly number[],
  information: number,
): void {
  const i = Math.floor(at);
  const right = size * (at - i);
  const left = size - right;
  diagonal[i]! += information * left ** 2;
  diagonal[i + 1]! += information * right ** 2;
  beside[i]! += information * left * right;
  for (const [a, weight] of weights.entries()) {
    shared[a]![i]! += information * left * weight;
    shared[a]![i + 1]! += information * right * weight;
    for (const [b, other] of weights.entries()) asked[a]![b]! += information * weight * other;
  }
}

/** What is left of the information about the numbers once the field is as unknown as it is, by elimination. */
export function informationLeft({ diagonal, beside, shared, asked }: Field): readonly number[][] {
  let pivot = diagonal[0]!;
  let own = shared.map((column) => column[0]!);
  const left = asked.map((row, a) =>
    Array.from(row, (value, b) => value - (own[a]! * own[b]!) / pivot),
  );
  for (let i = 1; i < diagonal.length; i++) {
    const factor = beside[i - 1]! / pivot;
    pivot = diagonal[i]! - factor * beside[i - 1]!;
    own = own.map((value, a) => shared[a]![i]! - factor * value);
    for (const [a, row] of left.entries()) {
      for (let b = 0; b < row.length; b++) row[b]! -= (own[a]! * own[b]!) / pivot;
    }
  }
  return left;
}
