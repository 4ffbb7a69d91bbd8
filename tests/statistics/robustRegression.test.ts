import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { robustRegression } from "../../src/statistics/robustRegression.js";

const line = (xs: readonly number[]) => xs.map((x) => [1, x]);

describe("robust regression", () => {
  it("robust regression equals least squares if all rows lie well within their errors", () => {
    const xs = [0, 1, 2, 3, 4, 5];
    const ys = xs.map((x) => 2 + 3 * x + (x % 2 === 0 ? 0.01 : -0.01));
    const fit = robustRegression(
      line(xs),
      ys,
      xs.map(() => 10),
    )!;
    // By hand: slope = 3 - 0.06/35, from sums of x and y about their means.
    expect(fit.coefficients[1]).toBeCloseTo(3 - 0.06 / 35, 6);
  });

  it("does not depend on two outliers in nine rows, of any size", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 1e6, noNaN: true }),
        fc.double({ min: 50, max: 1e6, noNaN: true }),
        (first, second) => {
          const xs = [0, 1, 2, 3, 4, 5, 6, 7, 8];
          const ys = xs.map((x) => 1 + 0.5 * x + 0.1 * Math.sin(3 * x));
          ys[4]! += first;
          ys[7]! -= second;
          const fit = robustRegression(
            line(xs),
            ys,
            xs.map(() => 1),
          )!;
          expect(Math.abs(fit.coefficients[0]! - 1)).toBeLessThan(0.3);
          expect(Math.abs(fit.coefficients[1]! - 0.5)).toBeLessThan(0.1);
        },
      ),
    );
  });

  it("adding a constant to all rows adds it to the offset", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 5, maxLength: 12 }),
        fc.double({ min: -1e3, max: 1e3, noNaN: true }),
        (ys, shift) => {
          const xs = ys.map((_, i) => i);
          const sigma = ys.map(() => 3);
          const before = robustRegression(line(xs), ys, sigma)!;
          const after = robustRegression(
            line(xs),
            ys.map((y) => y + shift),
            sigma,
          )!;
          expect(after.coefficients[0]! - before.coefficients[0]!).toBeCloseTo(shift, 4);
        },
      ),
    );
  });
});
