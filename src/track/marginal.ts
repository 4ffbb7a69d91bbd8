// The likelihood of the rows of a cast under a proposal, without the posterior of the coefficients. Most proposals are too
// improbable to need a posterior.

import type { Gaussian } from "../model/gaussian.js";
import type { Rows } from "../model/rows.js";
import { normalLogCdf } from "../statistics/normal.js";

/** The prediction of the rows by a hypothesis before any new event, with whitened innovations. */
export interface PredictedRows {
  readonly rows: Rows;
  /** Lower triangle of the Cholesky factor of the innovation covariance, row by row. */
  readonly lower: Float64Array;
  readonly whitened: Float64Array;
  readonly logDensity: number;
  /** The whitened effect of each coefficient on the rows, stored because most coefficients occur in many proposals. */
  readonly effects: Map<Direction, WhitenedEffect>;
}

/** A coefficient as it enters the rows. */
export interface Direction {
  readonly direction: Float64Array;
  readonly sd: number;
  readonly notPositive: boolean;
}

/** The effect of one standard deviation of a coefficient on the whitened rows. */
interface WhitenedEffect {
  readonly column: Float64Array;
  readonly square: number;
  /** Its scalar product with the whitened innovations. */
  readonly along: number;
  readonly notPositive: boolean;
}

/**
 * Returns a function that predicts any rows under a hypothesis, each once. Coefficients without variance are excluded once
 * for all rows.
 */
export function rowPredictor({ mean, covariance }: Gaussian): (rows: Rows) => PredictedRows {
  const size = mean.length;
  const uncertain = Uint32Array.from(mean.keys()).filter((a) => covariance[a * size + a]! > 0);
  const m = uncertain.length;
  const own = new Float64Array(m * m);
  for (let a = 0; a < m; a++) {
    for (let b = 0; b < m; b++) own[a * m + b] = covariance[uncertain[a]! * size + uncertain[b]!]!;
  }
  const known = new Map<Rows, PredictedRows>();
  return (rows) => {
    const found = known.get(rows) ?? predictRows(mean, uncertain, own, rows);
    known.set(rows, found);
    return found;
  };
}

function predictRows(
  mean: Float64Array,
  uncertain: Uint32Array,
  covariance: Float64Array,
  rows: Rows,
): PredictedRows {
  const m = uncertain.length;
  const count = rows.rows.length;
  const whitened = new Float64Array(count);
  const lower = new Float64Array(count * count);
  const weights = new Float64Array(count * m);
  // Compressed rows are triangular: the index of the first weight of each that is not zero.
  const first = new Uint32Array(count);
  for (let i = 0; i < count; i++) {
    const row = rows.rows[i]!;
    for (let a = 0; a < m; a++) weights[i * m + a] = row[uncertain[a]!]!;
    while (first[i]! < m && weights[i * m + first[i]!] === 0) first[i]!++;
    whitened[i] = rows.values[i]! - dot(row, mean);
  }
  // Row by row, the covariance of the row with each coefficient.
  const projected = new Float64Array(m);
  for (let i = 0; i < count; i++) {
    projected.fill(0);
    for (let a = first[i]!; a < m; a++) {
      const weight = weights[i * m + a]!;
      if (weight === 0) continue;
      for (let b = 0, k = a * m; b < m; b++, k++) projected[b]! += weight * covariance[k]!;
    }
    for (let j = 0; j <= i; j++) {
      let sum = i === j ? rows.variances[i]! : 0;
      for (let b = first[j]!; b < m; b++) sum += projected[b]! * weights[j * m + b]!;
      for (let k = 0; k < j; k++) sum -= lower[i * count + k]! * lower[j * count + k]!;
      lower[i * count + j] = i === j ? Math.sqrt(sum) : sum / lower[j * count + j]!;
    }
  }
  solveLower(lower, whitened);
  let logDensity = rows.logConstant - 0.5 * count * Math.log(2 * Math.PI);
  for (let i = 0; i < count; i++) {
    logDensity -= Math.log(lower[i * count + i]!) + 0.5 * whitened[i]! ** 2;
  }
  return { rows, lower, whitened, logDensity, effects: new Map() };
}

/**
 * Log density of the rows with new coefficients marginalised; their priors are normal or half-normal. U is the effect of
 * the coefficients on the whitened rows. The log density changes by that of U'z under I + U'U = L D L', one coefficient at
 * a time.
 */
export function logMarginal(expected: PredictedRows, directions: readonly Direction[]): number {
  const count = directions.length;
  if (count > most) makeRoom(count);
  let { logDensity } = expected;
  for (let i = 0; i < count; i++) {
    const seen = effectOf(expected, directions[i]!);
    let { along } = seen;
    let total = 1 + seen.square;
    // The part of it that earlier coefficients already explain.
    for (let j = 0; j < i; j++) {
      let product = dot(seen.column, columns[j]!);
      for (let k = 0; k < j; k++) {
        product -= (shared[i * most + k]! * shared[j * most + k]!) / totals[k]!;
      }
      shared[i * most + j] = product;
      along -= (product * alongs[j]!) / totals[j]!;
      total -= (product * product) / totals[j]!;
    }
    logDensity += -0.5 * Math.log(total) + (0.5 * along * along) / total;
    if (seen.notPositive) logDensity += Math.LN2 + normalLogCdf(-along / Math.sqrt(total));
    columns[i] = seen.column;
    alongs[i] = along;
    totals[i] = total;
  }
  return logDensity;
}

/** Work arrays for the coefficients of one proposal, reused because a cast has some thousand proposals. */
let most = 0;
let columns: Float64Array[] = [];
let alongs = new Float64Array(0);
let totals = new Float64Array(0);
let shared = new Float64Array(0);

function makeRoom(count: number): void {
  most = count;
  columns = [];
  [alongs, totals] = [new Float64Array(count), new Float64Array(count)];
  shared = new Float64Array(count * count);
}

function effectOf(expected: PredictedRows, coefficient: Direction): WhitenedEffect {
  const { rows, lower, whitened, effects } = expected;
  const known = effects.get(coefficient);
  if (known !== undefined) return known;
  const { direction, sd, notPositive } = coefficient;
  const column = new Float64Array(rows.rows.length);
  for (let i = 0; i < column.length; i++) column[i] = sd * dot(rows.rows[i]!, direction);
  solveLower(lower, column);
  const found = { column, square: dot(column, column), along: dot(column, whitened), notPositive };
  effects.set(coefficient, found);
  return found;
}

/** Changes its argument in place. */
function solveLower(lower: Float64Array, right: Float64Array): void {
  const count = right.length;
  for (let i = 0; i < count; i++) {
    let sum = right[i]!;
    for (let k = 0; k < i; k++) sum -= lower[i * count + k]! * right[k]!;
    right[i] = sum / lower[i * count + i]!;
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
