import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { leastSquares } from "../../src/statistics/leastSquares.js";

interface CertifiedSet {
  name: string;
  design: number[][];
  y: number[];
  coefficients: number[];
  standardDeviations: number[];
  residualStandardDeviation: number;
}

// NIST Statistical Reference Datasets, see fixtures/nist-strd/README.md.
const sets = JSON.parse(
  readFileSync(new URL("../../fixtures/nist-strd/linear.json", import.meta.url), "utf8"),
) as CertifiedSet[];
const digits: Record<string, number> = { Norris: 11, Pontius: 11, NoInt1: 13, Longley: 10 };

const logRelativeError = (computed: number, certified: number) =>
  computed === certified ? 16 : -Math.log10(Math.abs(computed - certified) / Math.abs(certified));

describe("least squares", () => {
  it.each(sets)("gives the certified coefficients and uncertainties of NIST StRD $name", (set) => {
    const fit = leastSquares(set.design, set.y)!;
    const variance = fit.weightedSumOfSquares / fit.degreesOfFreedom;
    const worst = Math.min(
      ...set.coefficients.map((certified, j) => logRelativeError(fit.coefficients[j]!, certified)),
    );
    expect(worst).toBeGreaterThan(digits[set.name]!);
    for (const [j, certified] of set.standardDeviations.entries()) {
      const computed = Math.sqrt(variance * fit.covariance[j]![j]!);
      expect(logRelativeError(computed, certified)).toBeGreaterThan(8);
    }
    expect(logRelativeError(Math.sqrt(variance), set.residualStandardDeviation)).toBeGreaterThan(8);
  });

  it("does not fit columns that depend on each other", () => {
    const rows = [1, 2, 3, 4, 5].map((x) => [1, x, 2 * x + 3]);
    expect(leastSquares(rows, [1, 2, 3, 4, 5])).toBeUndefined();
  });

  it("takes a row of weight 4 as four rows of weight 1", () => {
    const [xs, ys] = [
      [0, 1, 2, 4],
      [1, 3, 2, 7],
    ];
    const once = leastSquares(
      xs!.map((x) => [1, x]),
      ys!,
      [1, 4, 1, 1],
    )!;
    const repeated = leastSquares(
      [0, 1, 1, 1, 1, 2, 4].map((x) => [1, x]),
      [1, 3, 3, 3, 3, 2, 7],
    )!;
    expect(once.coefficients[1]).toBeCloseTo(repeated.coefficients[1]!, 12);
    expect(once.covariance[1]![1]).toBeCloseTo(repeated.covariance[1]![1]!, 12);
  });
});
