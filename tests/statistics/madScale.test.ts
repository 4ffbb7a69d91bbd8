import fc from "fast-check";
import { median as medianOfNumbers } from "simple-statistics";
import { expect, test } from "vitest";
import { madScale } from "../../src/statistics/madScale.js";
import { median, quantile } from "../../src/statistics/robustCentre.js";

// The 24 determinations of copper in wholemeal flour of the Analytical Methods Committee (1989), which R
// ships as MASS::chem. There median(chem) is 3.385 and mad(chem) 0.526323 (values from memory of R's output;
// the data are worked out by hand below as well: deviations sorted, the middle two are 0.355 and 0.355).
const copper = [
  2.9, 3.1, 3.4, 3.4, 3.7, 3.7, 2.8, 2.5, 2.4, 2.4, 2.7, 2.2, 5.28, 3.37, 3.03, 3.03, 28.95, 3.77,
  3.4, 2.2, 3.5, 3.6, 3.7, 3.7,
];

test("median and scale of the copper determinations are those of R, in spite of the outlier 28.95", () => {
  expect(median(copper)).toBeCloseTo(3.385, 12);
  expect(madScale(copper)).toBeCloseTo(0.526323, 6);
});

test("the quantile is interpolated between order statistics", () => {
  // R: quantile(c(1, 2, 4, 8), 0.5, type = 7) is 3.
  expect(quantile(Float64Array.of(8, 1, 4, 2), 0.5)).toBe(3);
});

test("missing values are ignored, and no value gives NaN", () => {
  expect(median([1, 2, Number.NaN, 4, 5])).toBe(3);
  expect(madScale([1, 2, Number.NaN, 4, 5])).toBeCloseTo(1.5 * 1.4826, 12);
  expect(median([])).toBeNaN();
  expect(quantile([Number.NaN], 0.9)).toBeNaN();
  expect(madScale(new Float64Array(0))).toBeNaN();
});

test("the scale does not move when the data are shifted, and grows with them", () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 1, maxLength: 50 }),
      fc.integer({ min: -1000, max: 1000 }),
      (values, shift) => {
        const scale = madScale(values);
        expect(madScale(values.map((v) => v + shift))).toBeCloseTo(scale, 9);
        expect(madScale(values.map((v) => -3 * v))).toBeCloseTo(3 * scale, 9);
      },
    ),
    { seed: 1 },
  );
});

test("almost half of the values can be wild before the scale is", () => {
  const values = Array.from({ length: 101 }, (_, i) => (i < 49 ? 1e9 : i - 75));
  expect(madScale(values)).toBeLessThan(100);
});

test("the median is that of simple-statistics, for few values and many, equal ones among them", () => {
  fc.assert(
    fc.property(
      fc.oneof(
        fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), {
          minLength: 1,
          maxLength: 200,
        }),
        fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 1, maxLength: 200 }),
      ),
      (values) => {
        expect(Math.abs(median(values) - medianOfNumbers(values))).toBeLessThan(1e-9);
      },
    ),
    { seed: 3, numRuns: 300 },
  );
});
