// What else than a film may be in readings, taken out of them: linear terms with normal priors, made orthonormal so
// that each film is weighed against all of them at the cost of one product a term.
import type { PathRows } from "./pathRows.js";

/** Rows whose background has been made orthonormal and taken out of the values. */
export interface CleanRows extends PathRows {
  /** Value less what the background explains of it. */
  readonly clean: Float64Array;
  /** Background columns for which X'WX + prior precision is the unit matrix. */
  readonly unit: readonly Float64Array[];
  /** Natural logarithm of the evidence ratio of the background against none. */
  readonly log: number;
}

/** Gram and Schmidt, the priors carried as one more row for each column. */
export function withoutBackground(rows: PathRows): CleanRows {
  const { value_ppm, weight, background } = rows;
  const unit: Float64Array[] = [];
  const units: Float64Array[] = [];
  const clean = Float64Array.from(value_ppm);
  let log = 0;
  for (const [j, { column, standardDeviation }] of background.entries()) {
    const own = Float64Array.from(column);
    const prior = new Float64Array(background.length);
    prior[j] = 1 / standardDeviation;
    for (const [k, other] of unit.entries()) {
      const share = weighted(weight, own, other) + dot(prior, units[k]!);
      subtract(own, share, other);
      subtract(prior, share, units[k]!);
    }
    const length = Math.sqrt(weighted(weight, own, own) + dot(prior, prior));
    log -= Math.log(length * standardDeviation);
    unit.push(scaled(own, 1 / length));
    units.push(scaled(prior, 1 / length));
  }
  // The priors' rows have the value 0, and count in none of the sums that a film enters.
  for (const own of unit) {
    const share = weighted(weight, own, value_ppm);
    log += 0.5 * share * share;
    subtract(clean, share, own);
  }
  return { ...rows, clean, unit, log };
}

/** In place. */
function scaled(column: Float64Array, factor: number): Float64Array {
  for (let i = 0; i < column.length; i++) column[i]! *= factor;
  return column;
}

function weighted(weight: Float64Array, a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < weight.length; i++) sum += weight[i]! * a[i]! * b[i]!;
  return sum;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

function subtract(from: Float64Array, share: number, other: Float64Array): void {
  for (let i = 0; i < from.length; i++) from[i]! -= share * other[i]!;
}
