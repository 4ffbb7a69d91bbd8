import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { majorityOutliers } from "../../src/statistics/majorityOutliers.js";

describe("a value that most others contradict", () => {
  it("an outlier is found although it outweighs all others together", () => {
    const sigma = [1, 1.2, 4, 25, 40, 6];
    const found = majorityOutliers([80, -2, -3, -10, -9, -1], sigma, 4);
    expect(found[0]).toBeGreaterThan(50);
    expect(found.slice(1)).toEqual([0, 0, 0, 0, 0]);
  });

  it("is not found by two values, or if as many agree on another value", () => {
    expect(majorityOutliers([80, 0, 1], [1, 1, 1], 4)).toEqual([0, 0, 0]);
    expect(majorityOutliers([80, 81, 82, 0, 1, 2], [1, 1, 1, 1, 1, 1], 4)).toEqual([
      0, 0, 0, 0, 0, 0,
    ]);
    expect(majorityOutliers([], [], 4)).toEqual([]);
  });

  it("is the same in any unit, and leaves three that agree at least", () => {
    const value = fc.record({
      value: fc.double({ min: -100, max: 100, noNaN: true }),
      sigma: fc.double({ min: 0.5, max: 50, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 9 }), (given) => {
        const values = given.map(({ value }) => value);
        const sigma = given.map(({ sigma }) => sigma);
        const told = majorityOutliers(values, sigma, 4).map((z) => z > 0);
        const otherwise = majorityOutliers(
          values.map((v) => 8 * v),
          sigma.map((s) => 8 * s),
          4,
        );
        expect(otherwise.map((z) => z > 0)).toEqual(told);
        const outnumbered = told.filter(Boolean).length;
        expect(outnumbered).toBeLessThanOrEqual(Math.max(0, given.length - 3));
      }),
      { seed: 5 },
    );
  });
});
