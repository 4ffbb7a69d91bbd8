import fc from "fast-check";
import { expect, it } from "vitest";
import { condition } from "../../src/model/gaussian.js";
import { measurementOf, retainedShare, truncatedShare } from "../../src/track/retainedShare.js";

/** Moments of the same density by the midpoint rule. */
function byIntegration(mean: number, sd: number) {
  const steps = 20_000;
  let [mass, first, second] = [0, 0, 0];
  for (let i = 0; i < steps; i++) {
    const x = (i + 0.5) / steps;
    const density = Math.exp(-0.5 * ((x - mean) / sd) ** 2);
    mass += density;
    first += density * x;
    second += density * x * x;
  }
  const found = first / mass;
  return { mean: found, sd: Math.sqrt(second / mass - found ** 2) };
}

it("a normal distribution truncated to 0 to 1 has the moments of numerical integration", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -0.3, max: 1.3, noNaN: true }),
      fc.double({ min: 0.1, max: 3, noNaN: true }),
      (mean, sd) => {
        const cut = truncatedShare(mean, sd);
        const expected = byIntegration(mean, sd);
        expect(cut.mean).toBeCloseTo(expected.mean, 5);
        expect(cut.sd).toBeCloseTo(expected.sd, 5);
      },
    ),
    { seed: 5, numRuns: 200 },
  );
});

it("an unknown share is 0.5 +/- 0.289, uniform from 0 to 1", () => {
  const { mean, sd } = truncatedShare(0.5, 1000);
  expect(mean).toBeCloseTo(0.5, 6);
  expect(sd).toBeCloseTo(1 / Math.sqrt(12), 5);
});

it("an error of the clean gain cancels if all of the film stayed, and counts in full if none did", () => {
  const sd = (gain: number, cleanVariance: number) =>
    retainedShare(
      { gain: -300, clean: 0, gainVariance: 9, cleanVariance, covariance: 0 },
      { mean: gain, variance: 9 },
      0,
    ).sd;
  expect(sd(-150, 400) / sd(-150, 0)).toBeGreaterThan(1.5);
  expect(sd(-300, 400)).toBeCloseTo(sd(-300, 0), 12);
});

it("growth after the cleaning does not count as film left by it", () => {
  const before = { gain: -400, clean: 0, gainVariance: 1, cleanVariance: 0, covariance: 0 };
  const { mean } = retainedShare(before, { mean: -240, variance: 1 }, -40);
  expect(mean).toBeCloseTo(0.5, 3);
});

it("an observation is recovered from the estimates before and after it", () => {
  const number = fc.double({ min: -1000, max: 1000, noNaN: true });
  const variance = fc.double({ min: 1, max: 1e4, noNaN: true });
  fc.assert(
    fc.property(number, variance, number, variance, (mean, prior, seen, noise) => {
      const state = { mean: Float64Array.of(mean), covariance: Float64Array.of(prior) };
      condition(state, Float64Array.of(1), seen, noise);
      const posterior = { mean: state.mean[0]!, variance: state.covariance[0]! };
      const alone = measurementOf({ mean, variance: prior }, posterior)!;
      expect(Math.abs(alone.mean - seen)).toBeLessThan(
        1e-5 * (1 + Math.abs(seen) + Math.abs(mean)),
      );
      expect(alone.variance / noise).toBeCloseTo(1, 6);
    }),
    { seed: 6, numRuns: 200 },
  );
});
