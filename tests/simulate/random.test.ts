import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { randomStream, xoshiro128 } from "../../src/simulate/random.js";
import { normalCdf } from "../../src/statistics/normal.js";

describe("random numbers", () => {
  it("the generator gives the words of the xoshiro128** reference (Blackman and Vigna; nine of ten from memory)", () => {
    const next = xoshiro128(Uint32Array.of(1, 2, 3, 4));
    expect(Array.from({ length: 10 }, next)).toEqual([
      11520,
      0,
      5927040,
      70819200,
      expect.any(Number),
      1637235492,
      1287239034,
      3734860849,
      3729100597,
      4258142804,
    ]);
  });

  it("random numbers fill 64 boxes of the unit interval evenly: chi-squared is below 103.4, its 99.9 % point (tables)", () => {
    const stream = randomStream(1);
    const boxes = new Float64Array(64);
    const draws = 64_000;
    for (let i = 0; i < draws; i++) boxes[Math.floor(64 * stream.uniform())]!++;
    const expected = draws / 64;
    const chiSquared = boxes.reduce((sum, n) => sum + (n - expected) ** 2 / expected, 0);
    expect(chiSquared).toBeLessThan(103.4);
  });

  it("normal deviates follow the normal distribution: Kolmogorov's distance is below 1.95 / sqrt(n)", () => {
    const stream = randomStream(2);
    const n = 20_000;
    const drawn = Float64Array.from({ length: n }, () => stream.normal()).sort();
    let furthest = 0;
    drawn.forEach((x, i) => {
      furthest = Math.max(furthest, Math.abs(normalCdf(x) - (i + 0.5) / n));
    });
    expect(furthest).toBeLessThan(1.95 / Math.sqrt(n));
  });

  it("the random numbers of a part do not depend on what was drawn before the split", () => {
    fc.assert(
      fc.property(fc.nat(), fc.string(), fc.nat(100), (seed, part, before) => {
        const untouched = randomStream(seed).split(part);
        const parent = randomStream(seed);
        for (let i = 0; i < before; i++) parent.normal();
        const own = parent.split(part);
        expect(own.uniform()).toBe(untouched.uniform());
      }),
      { seed: 1 },
    );
  });

  it("neighbouring parts and seeds are uncorrelated: correlations of 2000 pairs are below 4.5 / sqrt(2000)", () => {
    const of = (stream: { normal(): number }) =>
      Float64Array.from({ length: 2000 }, () => stream.normal());
    const root = randomStream(3);
    const columns = [
      root.split(1),
      root.split(2),
      root.split("1"),
      root.split("a"),
      root.split("b"),
    ];
    columns.push(root, randomStream(4), randomStream(5), randomStream(2 ** 32 + 3));
    const drawn = columns.map(of);
    for (const [i, a] of drawn.entries()) {
      for (const b of drawn.slice(0, i)) {
        const correlation = a.reduce((sum, x, k) => sum + x * b[k]!, 0) / 2000;
        expect(Math.abs(correlation)).toBeLessThan(4.5 / Math.sqrt(2000));
      }
    }
  });

  it("a seed that is not a whole number is refused", () => {
    for (const seed of [-1, 0.5, Number.NaN, 2 ** 60]) {
      expect(() => randomStream(seed)).toThrow(RangeError);
    }
  });
});
