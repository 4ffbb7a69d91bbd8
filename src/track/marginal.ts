// How probable the rows of a cast are under a proposal, without working out what the coefficients would
// then be: most proposals are not worth that.
import { normalLogCdf } from "../statistics/normal.js";
import type { Rows } from "./compress.js";
import type { Gaussian } from "./gaussian.js";

/** The rows as a hypothesis expects them before anything new: innovations made independent. */
export interface Expected {
  readonly rows: Rows;
  /** Lower triangle of the Cholesky factor of the innovations' covariance, row by row. */
  readonly lower: Float64Array;
  readonly whitened: Float64Array;
  readonly logDensity: number;
  /** What coefficients make of the rows, whitened alike: most are weighed in many proposals. */
  readonly seen: Map<Direction, Float64Array>;
}

/** A coefficient as it enters the rows. */
export interface Direction {
  readonly direction: Float64Array;
  readonly sd: number;
  readonly notPositive: boolean;
}

export function expect({ mean, covariance }: Gaussian, rows: Rows): Expected {
  const size = mean.length;
  const count = rows.rows.length;
  const lower = new Float64Array(count * count);
  const innovations = new Float64Array(count);
  const uncertain = Array.from(mean.keys()).filter((a) => covariance[a * size + a]! > 0);
  // Row by row, the covariance of what the row sees with each coefficient.
  const projected = new Float64Array(size);
  for (let i = 0; i < count; i++) {
    const row = rows.rows[i]!;
    innovations[i] = rows.values[i]! - dot(row, mean);
    projected.fill(0);
    for (const a of uncertain) {
      const weight = row[a]!;
      if (weight === 0) continue;
      for (const b of uncertain) projected[b]! += weight * covariance[a * size + b]!;
    }
    for (let j = 0; j <= i; j++) {
      let sum = i === j ? rows.variances[i]! : 0;
      const other = rows.rows[j]!;
      for (const b of uncertain) sum += projected[b]! * other[b]!;
      for (let k = 0; k < j; k++) sum -= lower[i * count + k]! * lower[j * count + k]!;
      lower[i * count + j] = i === j ? Math.sqrt(sum) : sum / lower[j * count + j]!;
    }
  }
  const whitened = solveLower(lower, innovations);
  let logDensity = rows.logConstant - 0.5 * count * Math.log(2 * Math.PI);
  for (let i = 0; i < count; i++) {
    logDensity -= Math.log(lower[i * count + i]!) + 0.5 * whitened[i]! ** 2;
  }
  return { rows, lower, whitened, logDensity, seen: new Map() };
}

/** Log density of the rows with new coefficients of normal priors, or half-normal ones, marginalised. */
export function logMarginal(expected: Expected, directions: readonly Direction[]): number {
  // One coefficient at a time: each makes the next one's rows expect what it left.
  let logDensity = expected.logDensity;
  const before: { readonly seen: Float64Array; readonly share: number }[] = [];
  let residual: Float64Array = expected.whitened;
  for (const direction of directions) {
    let seen: Float64Array = seenOf(expected, direction);
    // Whiten by what the coefficients before it added: (I + u u')^(-1/2) v = v - share (u.v) u.
    for (const { seen: u, share } of before) seen = minus(seen, u, share * dot(u, seen));
    const square = dot(seen, seen);
    const along = dot(seen, residual);
    const total = 1 + square;
    logDensity += -0.5 * Math.log(total) + (0.5 * along * along) / total;
    if (direction.notPositive) {
      logDensity += Math.LN2 + normalLogCdf(-along / Math.sqrt(total));
    }
    const share = square > 0 ? (1 - 1 / Math.sqrt(total)) / square : 0;
    residual = minus(residual, seen, share * along);
    before.push({ seen, share });
  }
  return logDensity;
}

function seenOf({ rows, lower, seen }: Expected, coefficient: Direction): Float64Array {
  const known = seen.get(coefficient);
  if (known !== undefined) return known;
  const { direction, sd } = coefficient;
  const column = new Float64Array(rows.rows.length);
  for (let i = 0; i < column.length; i++) column[i] = sd * dot(rows.rows[i]!, direction);
  const found = solveLower(lower, column);
  seen.set(coefficient, found);
  return found;
}

function solveLower(lower: Float64Array, right: Float64Array): Float64Array {
  const count = right.length;
  const solution = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let sum = right[i]!;
    for (let k = 0; k < i; k++) sum -= lower[i * count + k]! * solution[k]!;
    solution[i] = sum / lower[i * count + i]!;
  }
  return solution;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

function minus(a: Float64Array, b: Float64Array, factor: number): Float64Array {
  const difference = new Float64Array(a.length);
  for (let i = 0; i < a.length; i++) difference[i] = a[i]! - factor * b[i]!;
  return difference;
}
