// What the rows of a cast say about the state: R'V^-1 R and R'V^-1 y. It is small, and the same for all hypotheses.
import type { Gaussian } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import type { Layout } from "../model/layout.js";
import type { Rows } from "../model/rows.js";
import { normalLogDensity } from "../statistics/normal.js";
import { addTo } from "../statistics/orthonormal.js";
import { type Direction, directionAlong, product } from "./direction.js";
import { eachOnce } from "./eachOnce.js";
import { commonErrors, errorsOf } from "./independentErrors.js";

/** The log likelihood of coefficients x is logDensity + vector . x - x . matrix . x / 2. */
export interface Information {
  /** Row by row, only the triangle above the diagonal is used. */
  readonly matrix: Float64Array;
  readonly vector: Float64Array;
  readonly logDensity: number;
}

/**
 * A function that gives for a state the information of any rows about new coefficients, each once. The shared errors that are the
 * same under all hypotheses are integrated out once for all of them. No proposal changes a shared error before its coefficients.
 */
export function informationFor({ size, sharedErrors }: Layout, held: readonly Hypothesis[]) {
  const common = commonErrors(held.map(({ state }) => errorsOf(state))).filter(
    ({ slots }) => slots[0]! >= size - sharedErrors.length,
  );
  const same = common.map(({ slots }) => slots[0]);
  const zero = directionAlong(new Float64Array());
  const alike = eachOnce((rows: Rows) => withErrors(informationOf(rows), zero, common));
  return (state: Gaussian): ((rows: Rows) => Information) => {
    const errors = errorsOf(state).filter(({ slots }) => !same.includes(slots[0]));
    const mean = directionAlong(state.mean);
    return eachOnce((rows: Rows) => withErrors(alike(rows), mean, errors));
  };
}

function informationOf({ rows, values, variances, logConstant }: Rows): Information {
  const size = rows[0]?.length ?? 0;
  const matrix = new Float64Array(size * size);
  const vector = new Float64Array(size);
  let logDensity = logConstant;
  for (const [i, row] of rows.entries()) {
    logDensity += normalLogDensity(values[i]!, variances[i]!);
    for (let a = 0; a < size; a++) {
      const weight = row[a]! / variances[i]!;
      if (weight === 0) continue;
      vector[a]! += weight * values[i]!;
      for (let b = a; b < size; b++) matrix[a * size + b]! += weight * row[b]!;
    }
  }
  return { matrix, vector, logDensity };
}

/** The information about changes from a mean, once independent errors are integrated out. */
function withErrors(
  given: Information,
  mean: Direction,
  errors: readonly Direction[],
): Information {
  const matrix = given.matrix.slice();
  const vector = given.vector.slice();
  const size = vector.length;
  const moved = effectOf(mean, given);
  let logDensity = given.logDensity + product(mean, vector) - 0.5 * product(mean, moved);
  addTo(vector, -1, moved);
  for (const error of errors) {
    const effect = effectOf(error, { matrix, vector });
    const total = 1 + product(error, effect);
    const along = product(error, vector);
    logDensity += 0.5 * ((along * along) / total - Math.log(total));
    addTo(vector, -along / total, effect);
    for (let a = 0; a < size; a++) {
      const share = effect[a]! / total;
      if (share === 0) continue;
      for (let b = a; b < size; b++) matrix[a * size + b]! -= share * effect[b]!;
    }
  }
  return { matrix, vector, logDensity };
}

/** The matrix times a direction. */
export function effectOf(
  { slots, changes }: Direction,
  { matrix, vector }: Pick<Information, "matrix" | "vector">,
): Float64Array {
  const size = vector.length;
  const effect = new Float64Array(size);
  for (let k = 0; k < slots.length; k++) {
    const [slot, change] = [slots[k]!, changes[k]!];
    for (let b = 0; b < slot; b++) effect[b]! += change * matrix[b * size + slot]!;
    for (let b = slot; b < size; b++) effect[b]! += change * matrix[slot * size + b]!;
  }
  return effect;
}
