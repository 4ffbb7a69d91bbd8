import { inverse, Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import {
  assign,
  certainZero,
  condition,
  projected,
  redraw,
  truncateNotPositive,
  widen,
} from "../../src/model/gaussian.js";

describe("a Gaussian over coefficients", () => {
  it("conditioned one observation at a time equals the brute-force Gaussian solution", () => {
    // x ~ N(m, P), y = H x + e: mean and covariance by the textbook formula with ml-matrix.
    const prior = new Matrix([
      [4, 1, 0],
      [1, 3, 0.5],
      [0, 0.5, 2],
    ]);
    const mean = [1, -2, 0.5];
    const rows = [
      [1, 0, 1],
      [0, 2, -1],
      [1, 1, 1],
      [0.3, 0, 0],
    ];
    const values = [2, -3, 1, 0.7];
    const variances = [0.5, 1, 2, 0.1];
    const h = new Matrix(rows);
    const total = h.mmul(prior).mmul(h.transpose()).add(Matrix.diag(variances));
    const innovation = Matrix.columnVector(values).sub(h.mmul(Matrix.columnVector(mean)));
    const gain = prior.mmul(h.transpose()).mmul(inverse(total));
    const expectedMean = Matrix.columnVector(mean).add(gain.mmul(innovation));
    const expectedCovariance = Matrix.sub(prior, gain.mmul(h).mmul(prior));

    const gaussian = {
      mean: Float64Array.from(mean),
      covariance: Float64Array.from(prior.to1DArray()),
    };
    let logDensity = 0;
    for (const [i, row] of rows.entries()) {
      logDensity += condition(gaussian, Float64Array.from(row), values[i]!, variances[i]!);
    }
    for (let i = 0; i < 3; i++) {
      expect(gaussian.mean[i]).toBeCloseTo(expectedMean.get(i, 0), 12);
      for (let j = 0; j < 3; j++) {
        expect(gaussian.covariance[i * 3 + j]).toBeCloseTo(expectedCovariance.get(i, j), 12);
      }
    }
    const quadratic = innovation.transpose().mmul(inverse(total)).mmul(innovation).get(0, 0);
    const logDeterminant = Math.log(
      // 4 x 4 determinant by Cholesky of a positive definite matrix.
      Array.from({ length: 4 }, (_, i) => choleskyDiagonal(total)[i]! ** 2).reduce(
        (a, b) => a * b,
        1,
      ),
    );
    expect(logDensity).toBeCloseTo(
      -0.5 * (4 * Math.log(2 * Math.PI) + logDeterminant + quadratic),
      10,
    );
  });

  it("local level filter on the first three Nile flows starts as in Durbin and Koopman", () => {
    // Durbin & Koopman 2012, section 2.2: y1 = 1120 (1871), variances 15099 and 1469.1; after the first
    // observation of a diffuse start the level is 1120 with variance 15099. Figures from memory.
    const level = certainZero(1);
    redraw(level, 0, 0, 1e9);
    condition(level, Float64Array.of(1), 1120, 15099);
    expect(level.mean[0]).toBeCloseTo(1120, 1);
    expect(level.covariance[0]).toBeCloseTo(15099, -1);
    // Second: P = 15099 + 1469.1 = 16568.1, K = P / (P + 15099) = 0.5232, y2 = 1160.
    widen(level, Float64Array.of(1), 0, 1469.1);
    condition(level, Float64Array.of(1), 1160, 15099);
    expect(level.mean[0]).toBeCloseTo(1120 + 0.5232 * 40, 1);
    expect(level.covariance[0]).toBeCloseTo((16568.1 * 15099) / (16568.1 + 15099), -1);
  });

  it("half-normal: a coefficient known not to be positive has mean -0.798 and variance 0.363 of its scale", () => {
    // Moments of the half-normal distribution: sqrt(2/pi) and 1 - 2/pi.
    const gaussian = certainZero(2);
    widen(gaussian, Float64Array.of(1, 1), 0, 9);
    const logProbability = truncateNotPositive(gaussian, 0);
    expect(logProbability).toBeCloseTo(Math.log(0.5), 12);
    for (const i of [0, 1]) {
      expect(gaussian.mean[i]).toBeCloseTo(-3 * Math.sqrt(2 / Math.PI), 9);
      expect(gaussian.covariance[i * 2 + i]).toBeCloseTo(9 * (1 - 2 / Math.PI), 9);
    }
  });

  it("a coefficient assigned from another has its value", () => {
    const gaussian = certainZero(2);
    redraw(gaussian, 0, 5, 4);
    assign(gaussian, 1, 0, 0.5, 1);
    expect(projected(gaussian, Float64Array.of(0, 1))).toEqual({ mean: 2.5, variance: 2 });
    // Difference 2 x1 - x0 has the assignment's own error only: 4 x 1.
    expect(projected(gaussian, Float64Array.of(-1, 2)).variance).toBeCloseTo(4, 12);
  });
});

function choleskyDiagonal(matrix: Matrix): number[] {
  const n = matrix.rows;
  const lower = Matrix.zeros(n, n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix.get(i, j);
      for (let k = 0; k < j; k++) sum -= lower.get(i, k) * lower.get(j, k);
      lower.set(i, j, i === j ? Math.sqrt(sum) : sum / lower.get(j, j));
    }
  }
  return lower.diagonal();
}
