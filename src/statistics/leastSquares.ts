// Weighted linear least squares by Householder's QR, with the covariance of the coefficients. Rows are scaled by their
// weights, columns to unit length. The diagonal of R decides the rank.
import { dot } from "./orthonormal.js";
import { triangularise } from "./triangularise.js";

export interface LeastSquaresFit {
  /** One for each column of the design. */
  readonly coefficients: readonly number[];
  /** Covariance of the coefficients for unit weight, in rows; multiply by the variance of unit weight. */
  readonly covariance: readonly (readonly number[])[];
  /** Observed minus fitted, one for each row, unweighted. */
  readonly residuals: readonly number[];
  /** Weighted sum of squared residuals. */
  readonly weightedSumOfSquares: number;
  readonly degreesOfFreedom: number;
}

/** Columns whose part independent of the others is below this share of the largest are dependent. */
const rankTolerance = 1e-13;

/**
 * Fit y = X b by weighted least squares.
 * @param design  rows of X, all of one length
 * @param y       one observation for each row
 * @param weights one for each row, 1/variance; all 1 if absent
 * @returns the fit; undefined if there are fewer rows than columns or the columns are dependent
 * Checked against NIST StRD (linear regression).
 */
export function leastSquares(
  design: readonly (readonly number[])[],
  y: readonly number[],
  weights?: readonly number[],
): LeastSquaresFit | undefined {
  const columns = design[0]?.length ?? 0;
  if (columns === 0 || design.length < columns) return undefined;
  const root = design.map((_, i) => Math.sqrt(weights?.[i] ?? 1));
  // Columns are scaled to unit length first, so that the rank does not depend on units.
  const scaled = Array.from({ length: columns }, (_, j) =>
    Float64Array.from(design, (row, i) => row[j]! * root[i]!),
  );
  const lengths = scaled.map((column) => Math.sqrt(dot(column, column)));
  if (lengths.some((length) => length === 0)) return undefined;
  for (const [j, column] of scaled.entries()) {
    for (let i = 0; i < column.length; i++) column[i]! /= lengths[j]!;
  }
  const right = Float64Array.from(y, (value, i) => value * root[i]!);
  triangularise([...scaled, right]);
  const diagonal = scaled.map((column, j) => Math.abs(column[j]!));
  if (Math.min(...diagonal) < rankTolerance * Math.max(...diagonal)) return undefined;
  const coefficients = backSubstituted(scaled, right).map((value, j) => value / lengths[j]!);
  // R^-1, column by column: the covariance is its product with its transpose.
  const inverse = scaled.map((_, k) =>
    backSubstituted(
      scaled,
      scaled.map((__, i) => (i === k ? 1 : 0)),
    ),
  );
  const covariance = coefficients.map((_, i) =>
    coefficients.map(
      (__, j) =>
        inverse.reduce((sum, column) => sum + column[i]! * column[j]!, 0) /
        (lengths[i]! * lengths[j]!),
    ),
  );
  const residuals = design.map(
    (row, i) => y[i]! - row.reduce((sum, value, j) => sum + value * coefficients[j]!, 0),
  );
  return {
    coefficients,
    covariance,
    residuals,
    weightedSumOfSquares: residuals.reduce((sum, r, i) => sum + (r * root[i]!) ** 2, 0),
    degreesOfFreedom: design.length - columns,
  };
}

/** Solve R x = b, where R is the upper triangle of these columns. */
function backSubstituted(upper: readonly Float64Array[], b: ArrayLike<number>): readonly number[] {
  const x = upper.map((_, i) => b[i]!);
  for (let j = upper.length - 1; j >= 0; j--) {
    x[j]! /= upper[j]![j]!;
    for (let i = 0; i < j; i++) x[i]! -= x[j]! * upper[j]![i]!;
  }
  return x;
}
