import { describe, expect, it } from "vitest";
import { summariseColumn } from "../../src/health/columnSummary.js";
import { noiseFloor } from "../../src/health/noiseFloor.js";
import { randomStream } from "../../src/simulate/index.js";

const n = 40_000;
const draw = randomStream(1);
const white = Float64Array.from({ length: n }, () => draw.normal());
const floorOf = (column: Float64Array, interval_s: number) =>
  noiseFloor(summariseColumn(column, 0, column.length, interval_s));

describe("the noise floor", () => {
  it.each([1 / 24, 0.1, 1])(
    "of white noise is its standard deviation within 5 %, every %f s",
    (interval) => {
      expect(Math.abs(floorOf(white, interval) - 1)).toBeLessThan(0.05);
    },
  );

  it("scales with the noise, and does not depend on level or gradient", () => {
    const moved = white.map((x, i) => 0.01 * x + 35 - 0.002 * i);
    expect(floorOf(moved, 1 / 24) / (0.01 * floorOf(white, 1 / 24))).toBeCloseTo(1, 6);
  });

  it("the noise floor does not change if half of the column is ten times as noisy, or one scan in fifty is an outlier", () => {
    const halfNoisy = white.map((x, i) => (i < n / 2 ? x : 10 * x));
    expect(Math.abs(floorOf(halfNoisy, 1 / 24) - 1)).toBeLessThan(0.15);
    const wild = white.map((x, i) => (i % 150 === 0 ? 1000 : x));
    expect(floorOf(wild, 1 / 24)).toBeLessThan(2);
  });

  it("is 0 for a column of one value, and NaN for one without readings", () => {
    expect(floorOf(new Float64Array(1000).fill(3), 1 / 24)).toBe(0);
    expect(floorOf(new Float64Array(1000).fill(Number.NaN), 1 / 24)).toBeNaN();
  });
});
