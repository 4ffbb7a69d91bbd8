import fc from "fast-check";
import { expect, test } from "vitest";
import { continuousRankedProbabilityScore } from "../../src/statistics/continuousRankedProbabilityScore.js";
import { type Mixture, mixtureCdf } from "../../src/statistics/mixture.js";
import { normalCdf, normalPdf } from "../../src/statistics/normal.js";

/** The definition [GneitingRaftery2007], by Simpson's rule on either side of the observed value. */
function integrated(forecast: Mixture, observed: number): number {
  const reach = forecast.flatMap(({ mean, variance }) => {
    const far = 12 * Math.sqrt(variance);
    return [mean - far, mean + far];
  });
  const low = Math.min(observed, ...reach);
  const high = Math.max(observed, ...reach);
  return (
    simpson((x) => mixtureCdf(forecast, x) ** 2, low, observed) +
    simpson((x) => (1 - mixtureCdf(forecast, x)) ** 2, observed, high)
  );
}

function simpson(f: (x: number) => number, from: number, to: number): number {
  const n = 4000;
  const h = (to - from) / n;
  let sum = f(from) + f(to);
  for (let i = 1; i < n; i++) sum += (i % 2 === 1 ? 4 : 2) * f(from + i * h);
  return (sum * h) / 3;
}

const component = fc.record({
  share: fc.double({ min: 0.05, max: 1, noNaN: true }),
  mean: fc.double({ min: -50, max: 50, noNaN: true }),
  sd: fc.double({ min: 1, max: 30, noNaN: true }),
});
const mixtures = fc.array(component, { minLength: 1, maxLength: 5 }).map((parts): Mixture => {
  const total = parts.reduce((sum, { share }) => sum + share, 0);
  return parts.map(({ share, mean, sd }) => ({ weight: share / total, mean, variance: sd ** 2 }));
});
const anywhere = fc.double({ min: -100, max: 100, noNaN: true });

test("the score of a mixture is the integral that defines it", () => {
  fc.assert(
    fc.property(mixtures, anywhere, (forecast, observed) => {
      const expected = integrated(forecast, observed);
      const found = continuousRankedProbabilityScore(forecast, observed);
      expect(Math.abs(found - expected)).toBeLessThan(1e-5 * (1 + expected));
    }),
    { seed: 1, numRuns: 60 },
  );
});

test("that of one normal is sd (z (2 Phi(z) - 1) + 2 phi(z) - 1 / sqrt(pi)) [GneitingRaftery2007]", () => {
  for (const [mean, sd, observed] of [
    [0, 1, 0],
    [3, 2, -4],
    [-120, 9, -122],
    [10, 0.5, 30],
  ] as const) {
    const z = (observed - mean) / sd;
    const published = sd * (z * (2 * normalCdf(z) - 1) + 2 * normalPdf(z) - 1 / Math.sqrt(Math.PI));
    const forecast = [{ weight: 1, mean, variance: sd ** 2 }];
    expect(continuousRankedProbabilityScore(forecast, observed)).toBeCloseTo(published, 12);
  }
});

test("a certain forecast scores its distance from the outcome, and 0 if right", () => {
  const sure = [{ weight: 1, mean: 4, variance: 0 }];
  expect(continuousRankedProbabilityScore(sure, 7)).toBe(3);
  expect(continuousRankedProbabilityScore(sure, 4)).toBe(0);
});

test("a component split in two halves scores as the whole", () => {
  fc.assert(
    fc.property(mixtures, anywhere, (forecast, observed) => {
      const halved = forecast.flatMap((part) => {
        const half = { ...part, weight: part.weight / 2 };
        return [half, half];
      });
      expect(continuousRankedProbabilityScore(halved, observed)).toBeCloseTo(
        continuousRankedProbabilityScore(forecast, observed),
        10,
      );
    }),
    { seed: 2, numRuns: 100 },
  );
});

test("on the average no forecast scores better than the distribution the values come from", () => {
  // The score is proper [GneitingRaftery2007]: its mean over the truth, here by quadrature, is least at the truth.
  const truth: Mixture = [
    { weight: 0.7, mean: 0, variance: 1 },
    { weight: 0.3, mean: 4, variance: 4 },
  ];
  const density = (x: number) =>
    truth.reduce((sum, { weight, mean, variance }) => {
      const sd = Math.sqrt(variance);
      return sum + (weight * normalPdf((x - mean) / sd)) / sd;
    }, 0);
  const expected = (forecast: Mixture) =>
    simpson((x) => density(x) * continuousRankedProbabilityScore(forecast, x), -8, 18);
  const best = expected(truth);
  for (const other of [
    truth.map((part) => ({ ...part, variance: 1.5 * part.variance })),
    truth.map((part) => ({ ...part, variance: part.variance / 2 })),
    truth.map((part) => ({ ...part, mean: part.mean + 0.5 })),
    [{ weight: 1, mean: 1.2, variance: 5.26 }],
  ]) {
    expect(expected(other)).toBeGreaterThan(best);
  }
});
