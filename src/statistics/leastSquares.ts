// Weighted linear least squares by QR, with the covariance of the coefficients.
// Uses ml-matrix: rows are scaled by their weights, rank is judged by the diagonal of R.
import { inverse, Matrix, QrDecomposition } from "ml-matrix";

export interface LeastSquaresFit {
  /** One a column of the design. */
  readonly coefficients: readonly number[];
  /** Covariance of the coefficients for unit weight, in rows; multiply by the variance of unit weight. */
  readonly covariance: readonly (readonly number[])[];
  /** Observed minus fitted, one a row, unweighted. */
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
 * @param y       one observation a row
 * @param weights one a row, 1/variance; all 1 where absent
 * @returns the fit, or undefined where rows are fewer than columns or the columns depend on each other
 * Checked against NIST StRD (linear regression).
 */
export function leastSquares(
  design: readonly (readonly number[])[],
  y: readonly number[],
  weights?: readonly number[],
): LeastSquaresFit | undefined {
  const columns = design[0]?.length ?? 0;
  if (columns === 0 || design.length < columns) return undefined;
  const root = (row: number) => Math.sqrt(weights?.[row] ?? 1);
  // Columns are brought to unit length first, so that rank does not depend on units.
  const scaled = new Matrix(design.map((row, i) => row.map((value) => value * root(i))));
  const lengths = Array.from({ length: columns }, (_, j) => Math.hypot(...scaled.getColumn(j)));
  if (lengths.some((length) => length === 0)) return undefined;
  lengths.forEach((length, j) => {
    scaled.mulColumn(j, 1 / length);
  });
  const qr = new QrDecomposition(scaled);
  const upper = qr.upperTriangularMatrix;
  const diagonal = Array.from({ length: columns }, (_, j) => Math.abs(upper.get(j, j)));
  if (Math.min(...diagonal) < rankTolerance * Math.max(...diagonal)) return undefined;
  const right = Matrix.columnVector(y.map((value, i) => value * root(i)));
  const solution = qr.solve(right).to1DArray();
  const coefficients = solution.map((value, j) => value / lengths[j]!);
  const upperInverse = inverse(upper.subMatrix(0, columns - 1, 0, columns - 1));
  const product = upperInverse.mmul(upperInverse.transpose());
  const covariance = coefficients.map((_, i) =>
    coefficients.map((__, j) => product.get(i, j) / (lengths[i]! * lengths[j]!)),
  );
  const residuals = design.map(
    (row, i) => y[i]! - row.reduce((sum, value, j) => sum + value * coefficients[j]!, 0),
  );
  return {
    coefficients,
    covariance,
    residuals,
    weightedSumOfSquares: residuals.reduce((sum, r, i) => sum + (r * root(i)) ** 2, 0),
    degreesOfFreedom: design.length - columns,
  };
}
