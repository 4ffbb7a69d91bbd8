import fc from "fast-check";
import { sampleStandardDeviation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { scatterOf, sharedError } from "../../../src/evidence/bottles/sampleScatter.js";

const ones = (n: number) => new Array<number>(n).fill(1);

describe("the scatter of the samples of a cast", () => {
  it("with a few far samples it is their standard deviation beyond the laboratory's, with n - 1 degrees of freedom", () => {
    // The median deviation is 5, the standard deviation 14.6.
    const residuals = [-20, -5, 0, 5, 20];
    const excess = Math.sqrt(sampleStandardDeviation(residuals) ** 2 - 1);
    // Twice the scatter, and half as much again with four degrees of freedom (judgement, both).
    expect(sharedError(residuals, ones(5), 1)).toBeCloseTo(2 * 1.5 * excess, 9);
  });

  it("scatter as the laboratory expects it is no doubt, ten times as much is", () => {
    // Normal quantiles: a sample without luck.
    const normal = [-1.38, -0.87, -0.53, -0.25, 0, 0.25, 0.53, 0.87, 1.38];
    expect(scatterOf(normal, ones(9), 1).beyondChance).toBe(0);
    const wide = normal.map((r) => 10 * r);
    expect(scatterOf(wide, ones(9), 1).beyondChance).toBe(1);
    expect(sharedError(normal, ones(9), 0)).toBe(0);
  });

  it("it has the unit of the errors: the same samples in another unit share as much", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.integer({ min: 30, max: 300 }).map((tenths) => (tenths % 2 ? tenths : -tenths) / 10),
          { minLength: 3, maxLength: 24 },
        ),
        // Powers of two: a median between two values does not turn on rounding.
        fc.constantFrom(0.125, 4, 32),
        (residuals, unit) => {
          const inUnit = sharedError(
            residuals.map((r) => unit * r),
            residuals.map(() => unit),
            1,
          );
          expect(inUnit / unit).toBeCloseTo(sharedError(residuals, ones(residuals.length), 1), 6);
        },
      ),
    );
  });
});
