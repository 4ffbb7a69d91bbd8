import { describe, expect, it } from "vitest";
import { errorComponent, errorSum } from "../../src/track/errorComponent.js";

/** Two cells, a block of five rows each: gain down, gain up, pressure response, thermometer, offset. */
const block = 5;
const mean = Float64Array.from({ length: 2 * block }, (_, i) => i);
const covariance = Float64Array.from({ length: 2 * block * block }, (_, k) => 100 + k);
const entries = {
  mean,
  covariance,
  block,
  cross: new Float64Array(0),
  shares: new Float64Array(0),
};

describe("the errors that a cell had on an earlier cast", () => {
  it("they are the gain of the leg, pressure response, thermometer and offset of that cell, each once", () => {
    const own = errorComponent(entries, 1, "up", 0.5);
    expect(own.mean).toEqual([6, 7, 8, 9]);
    expect(errorComponent(entries, 0, "down", 0.5).mean).toEqual([0, 2, 3, 4]);
    // Rows and columns 1 to 4 of the second block.
    const kept = [1, 2, 3, 4];
    expect(own.covariance).toEqual(kept.map((i) => kept.map((j) => 125 + 5 * i + j)));
  });

  it("the variance of their sum counts each covariance twice", () => {
    const two = {
      mean: [3, -1],
      covariance: [
        [4, 1.5],
        [1.5, 9],
      ],
    };
    // var(2 a - b) = 4 var(a) + var(b) - 4 cov(a, b)
    expect(errorSum(two, [2, -1])).toEqual({ mean: 7, variance: 4 * 4 + 9 - 4 * 1.5 });
  });
});
