import { describe, expect, it } from "vitest";
import { settledLevel } from "../../../src/evidence/air/settledLevel.js";
import { seeded } from "../seeded.js";

/** One value a second; random numbers of standard deviation `noise` about `truth`. */
function series(seed: number, n: number, noise: number, truth: (second: number) => number) {
  const random = seeded(seed);
  const seconds = Array.from({ length: n }, (_, i) => i);
  return { seconds, values: seconds.map((t) => truth(t) + noise * random.normal()) };
}
const settled = ({ values, seconds }: ReturnType<typeof series>) =>
  settledLevel(values, seconds, 0.3)!;

describe("the level that a reading settles at", () => {
  it("the settled level of white noise agrees with its mean and its noise", () => {
    let squares = 0;
    const noises: number[] = [];
    for (let seed = 1; seed <= 200; seed++) {
      const {
        level,
        standardError,
        noise,
        settled: stands,
      } = settled(series(seed, 240, 2, () => 5));
      expect(stands).toBe(true);
      squares += ((level - 5) / standardError) ** 2;
      noises.push(noise);
    }
    // Eight parts tell their own scatter to a fifth.
    expect(Math.sqrt(squares / 200)).toBeGreaterThan(0.7);
    expect(Math.sqrt(squares / 200)).toBeLessThan(1.6);
    expect(noises.reduce((sum, own) => sum + own, 0) / 200 / 2).toBeCloseTo(1, 1);
  });

  it("the settled level of an exponential decay is its end value", () => {
    for (const tau of [8, 12, 15]) {
      const {
        level,
        fall,
        seconds,
        settled: stands,
      } = settled(series(1, 120, 0.01, (t) => 4 + 100 * Math.exp(-t / tau)));
      expect(stands).toBe(true);
      expect(Math.abs(fall)).toBeLessThan(0.3);
      // What is left at the middle of a part whose halves differ by so little is less than twice that.
      expect(level - 4).toBeGreaterThan(-0.05);
      expect(level - 4).toBeLessThan(0.6);
      expect(seconds).toBeLessThan(100);
    }
  });

  it("there is no settled level if the reading still changes at the end", () => {
    for (const slope of [0.2, -0.2]) {
      const found = settled(series(2, 200, 0.05, (t) => slope * t));
      expect(found.settled).toBe(false);
      expect(Math.sign(found.fall)).toBe(-Math.sign(slope));
      expect(found.seconds).toBeGreaterThanOrEqual(10);
    }
  });

  it("outliers in one value of ten and gaps do not change the settled level", () => {
    const calm = series(3, 100, 0.2, () => 1);
    const wild = calm.values.map((value, i) =>
      i % 10 === 3 ? 1e4 : i % 10 === 7 ? Number.NaN : value,
    );
    const found = settledLevel(wild, calm.seconds, 0.3)!;
    expect(found.settled).toBe(true);
    expect(Math.abs(found.level - 1)).toBeLessThan(0.15);
  });

  it("a settled level needs ten seconds and eight values", () => {
    const { values, seconds } = series(4, 60, 0.1, () => 0);
    expect(settledLevel(values.slice(0, 10), seconds.slice(0, 10), 0.3)).toBeUndefined();
    expect(settledLevel(values.slice(0, 11), seconds.slice(0, 11), 0.3)).toBeDefined();
    expect(
      settledLevel(values.slice(0, 7), seconds.map((t) => 10 * t).slice(0, 7), 0.3),
    ).toBeUndefined();
    expect(settledLevel([], [], 0.3)).toBeUndefined();
    expect(
      settledLevel(
        values.map(() => Number.NaN),
        seconds,
        0.3,
      ),
    ).toBeUndefined();
  });
});
