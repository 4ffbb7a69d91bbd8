// Linear regression that resists a few wild rows: a robust start, then iterated reweighting
// with Tukey's biweight [BeatonTukey1974] at a scale that is known, not estimated from the rows.
import { type LeastSquaresFit, leastSquares } from "./leastSquares.js";
import { weightedMedian } from "./weightedMedian.js";

/** 95 % efficient on normal errors. */
const biweightTuning = 4.685;
const iterations = 30;

/** Tukey's biweight of a standardised residual. */
export function biweight(z: number): number {
  const u = z / biweightTuning;
  return Math.abs(u) >= 1 ? 0 : (1 - u * u) ** 2;
}

/**
 * Fit y = X b where the first column of X is constant.
 * @param design rows of X
 * @param y      one observation a row
 * @param sigma  standard deviation of each row's ordinary error, units of y
 * @returns the last weighted fit, or undefined if too few rows keep weight to determine it
 */
export function robustRegression(
  design: readonly (readonly number[])[],
  y: readonly number[],
  sigma: readonly number[],
): LeastSquaresFit | undefined {
  const precision = sigma.map((s) => 1 / (s * s));
  const centre = weightedMedian(y, precision);
  let residuals: readonly number[] = y.map((value) => value - centre);
  let fit: LeastSquaresFit | undefined;
  for (let i = 0; i < iterations; i++) {
    const weights = residuals.map((r, row) => precision[row]! * biweight(r / sigma[row]!));
    const next = leastSquares(design, y, weights);
    if (next === undefined) return fit;
    const moved = fit === undefined || changed(fit.coefficients, next.coefficients);
    fit = next;
    residuals = next.residuals;
    if (!moved) break;
  }
  return fit;
}

function changed(before: readonly number[], after: readonly number[]): boolean {
  return before.some((b, j) => Math.abs(b - after[j]!) > 1e-9 * (1 + Math.abs(b)));
}
