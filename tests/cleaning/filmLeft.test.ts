import { expect, it } from "vitest";
import { filmLeft } from "../../src/cleaning/decision/filmLeft.js";

const film = {
  weight: 1,
  cause: "fouling",
  cleanMean_ppm: 0,
  cleanVariance: 0,
  covariance: 0,
  filmMean_ppm: -100,
  filmVariance: 40 ** 2,
  growthMean_ppm: -10,
  growthVariance: 5 ** 2,
} as const;

it("the film left has the moments of a product of independent numbers plus growth", () => {
  const share = { mean: 0.5, sd: 0.2 };
  const { mean_ppm, sd_ppm } = filmLeft(
    [film],
    { probabilityWorks: 1, retainedIfWorks: share, retainedIfFails: share },
    50,
  );
  // E x^2 E y^2 - (E x E y)^2, and the variance of what is added.
  const product = (100 ** 2 + 40 ** 2) * (0.5 ** 2 + 0.2 ** 2) - (100 * 0.5) ** 2;
  expect(mean_ppm).toBeCloseTo(-100 * 0.5 - 10, 10);
  expect(sd_ppm).toBeCloseTo(Math.sqrt(product + 5 ** 2), 10);
});
