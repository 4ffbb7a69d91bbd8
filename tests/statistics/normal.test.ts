import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { normalCdf, normalPdf, normalQuantile } from "../../src/statistics/normal.js";

// Values of scipy.stats.norm; see fixtures/normal/README.md.
const scipy = JSON.parse(readFileSync("fixtures/normal/normal.json", "utf8")) as {
  readonly x: readonly number[];
  readonly pdf: readonly number[];
  readonly cdf: readonly number[];
  readonly p: readonly number[];
  readonly quantile: readonly number[];
};

function expectRelative(found: number, expected: number, tolerance: number): void {
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(tolerance * Math.abs(expected));
}
const tolerance = (probability: number) => (probability < 1e-30 ? 1e-13 : 1e-14);

test.each(scipy.x.map((x, i) => [x, scipy.cdf[i]!] as const))(
  "the probability below %f is that of scipy, in the tails too",
  (x, expected) => expectRelative(normalCdf(x), expected, tolerance(expected)),
);

test.each(scipy.x.map((x, i) => [x, scipy.pdf[i]!] as const))(
  "the density at %f is that of scipy",
  (x, expected) => expectRelative(normalPdf(x), expected, tolerance(expected)),
);

test.each(scipy.p.map((p, i) => [p, scipy.quantile[i]!] as const))(
  "the quantile of %f is that of scipy",
  (p, expected) => expectRelative(normalQuantile(p), expected, 1e-14),
);

test("the quantile undoes the distribution function", () => {
  fc.assert(
    fc.property(fc.double({ min: -8, max: 5, noNaN: true }), (x) => {
      // Near one, p itself is known to 1e-16 only: x to 1e-16 / density.
      expect(Math.abs(normalQuantile(normalCdf(x)) - x)).toBeLessThan(
        1e-13 + 1e-15 / normalPdf(Math.max(x, 0)),
      );
    }),
    { seed: 1 },
  );
});

test("the distribution is symmetric and rises", () => {
  const any = fc.double({ min: -40, max: 40, noNaN: true });
  fc.assert(
    fc.property(any, any, (a, b) => {
      expect(normalCdf(a) + normalCdf(-a)).toBeCloseTo(1, 15);
      expect(normalCdf(Math.min(a, b))).toBeLessThanOrEqual(normalCdf(Math.max(a, b)) + 1e-16);
    }),
    { seed: 2 },
  );
});

test("certainty lies at infinity, and no probability outside 0 to 1 has a quantile", () => {
  expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
  expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
  expect(normalCdf(Number.NEGATIVE_INFINITY)).toBe(0);
  expect(normalCdf(Number.POSITIVE_INFINITY)).toBe(1);
  for (const p of [-0.1, 1.1, Number.NaN]) expect(normalQuantile(p)).toBeNaN();
  expect(normalCdf(Number.NaN)).toBeNaN();
});
