import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { randomStream, xoshiro128 } from "../../src/simulate/random.js";
import { normalCdf } from "../../src/statistics/normal.js";

describe("random numbers", () => {
  it("are the words of the reference implementation of xoshiro128** (Blackman and Vigna; nine of ten remembered)", () => {
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

  it("fill the unit interval evenly: 64 boxes, chi-squared below its 99.9 % point of 103.4 (tables)", () => {
    const stream = randomStream(1);
    const boxes = new Float64Array(64);
    const draws = 64_000;
    for (let i = 0; i < draws; i++) boxes[Math.floor(64 * stream.uniform())]!++;
    const expected = draws / 64;
    const chiSquared = boxes.reduce((sum, n) => sum + (n - expected) ** 2 / expected, 0);
    expect(chiSquared).toBeLessThan(103.4);
  });

  it("follow the normal distribution: greatest distance of the two curves under Kolmogorov's 1.95 / sqrt(n)", () => {
    const stream = randomStream(2);
    const n = 20_000;
    const drawn = Float64Array.from({ length: n }, () => stream.normal()).sort();
    let furthest = 0;
    drawn.forEach((x, i) => {
      furthest = Math.max(furthest, Math.abs(normalCdf(x) - (i + 0.5) / n));
    });
    expect(furthest).toBeLessThan(1.95 / Math.sqrt(n));
  });

  it("of a part do not depend on what was drawn before the split", () => {
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

  it("of neighbouring parts and seeds have nothing in common: correlations of 2000 pairs under 4.5 / sqrt(2000)", () => {
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

  it("have no seed that is not a whole number", () => {
    for (const seed of [-1, 0.5, Number.NaN, 2 ** 60]) {
      expect(() => randomStream(seed)).toThrow(RangeError);
    }
  });
});
