import fc from "fast-check";
import { expect, it } from "vitest";
import { mixtureCdf, mixtureQuantile } from "../../src/statistics/mixture.js";

const component = fc.record({
  share: fc.double({ min: 0.01, max: 1, noNaN: true }),
  mean: fc.double({ min: -500, max: 500, noNaN: true }),
  // From what is certain to what is hardly known, narrow beside the others or not.
  sd: fc.oneof(
    fc.constant(0),
    fc.double({ min: -14, max: 3, noNaN: true }).map((e) => 10 ** e),
  ),
});

it("a quantile has its probability below it and no more, however narrow or certain a component is", () => {
  fc.assert(
    fc.property(
      fc.array(component, { minLength: 1, maxLength: 8 }),
      fc.double({ min: 0.005, max: 0.995, noNaN: true }),
      (given, p) => {
        const whole = given.reduce((sum, { share }) => sum + share, 0);
        const mixture = given.map(({ share, mean, sd }) => ({
          weight: share / whole,
          mean,
          variance: sd * sd,
        }));
        const quantile = mixtureQuantile(mixture, p);
        const near = 1e-5;
        expect(mixtureCdf(mixture, quantile - near)).toBeLessThanOrEqual(p + 1e-9);
        expect(mixtureCdf(mixture, quantile + near)).toBeGreaterThanOrEqual(p - 1e-9);
      },
    ),
    { seed: 11, numRuns: 2000 },
  );
});
