import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cFromSp, spFromC, spFromCFirstDerivatives } from "../../src/seawater/index.js";

/** The derivative of f at x by central differences of steps h, h/2, h/4 and h/8, extrapolated (Richardson). */
function slopeOf(f: (x: number) => number, x: number, h: number): number {
  const rows: number[][] = [];
  for (let k = 0; k < 4; k++) {
    const step = h / 2 ** k;
    const row = [(f(x + step) - f(x - step)) / (2 * step)];
    for (let j = 1; j <= k; j++)
      row.push(row[j - 1]! + (row[j - 1]! - rows[k - 1]![j - 1]!) / (4 ** j - 1));
    rows.push(row);
  }
  return rows[3]![3]!;
}

const temperature = fc.double({ min: -2, max: 35, noNaN: true });
const pressure = fc.double({ min: 0, max: 10000, noNaN: true });

function agreesWithDifferences(sp: number, t: number, p: number): void {
  const c = cFromSp(sp, t, p);
  const found = spFromCFirstDerivatives(c, t, p);
  const expected = {
    dSpDc: slopeOf((x) => spFromC(x, t, p), c, 2e-3 * c),
    dSpDt: slopeOf((x) => spFromC(c, x, p), t, 0.05),
    dSpDp: slopeOf((x) => spFromC(c, t, x), p, 20),
  };
  for (const key of ["dSpDc", "dSpDt", "dSpDp"] as const)
    expect(Math.abs(found[key] - expected[key])).toBeLessThan(
      1e-9 * Math.max(1, Math.abs(expected[key])),
    );
}

describe("spFromCFirstDerivatives", () => {
  // Derived from 60-digit arithmetic on the published equations: SP, t, p, C, dSP/dC, dSP/dt, dSP/dp, to the digits shown.
  const table = [
    [35, 25, 5, 53.0732, 0.742, -0.775, -3.18e-4],
    [35, 15, 0, 42.9175, 0.9124, -0.8974, -4.08e-4],
    [34.9, 4, 1000, 32.9166, 1.1792, -1.0542, -5.09e-4],
    [34.7, 1.5, 4000, 31.715, 1.2239, -1.0592, -4.23e-4],
    [34.68, 1.5, 6000, 32.3357, 1.2049, -1.0414, -3.52e-4],
    [38.5, 13.5, 2000, 46.0302, 0.9431, -0.9937, -3.95e-4],
    [7, 8, 20, 8.2704, 0.9097, -0.1995, -1.13e-4],
    [34.3, -1.8, 50, 27.0252, 1.3978, -1.1585, -6.44e-4],
  ] as const;
  for (const [sp, t, p, c, dSpDc, dSpDt, dSpDp] of table)
    it(`at salinity ${sp}, ${t} degree C and ${p} dbar, 1 mS/cm is worth ${dSpDc} in salinity`, () => {
      expect(cFromSp(sp, t, p)).toBeCloseTo(c, 4);
      const found = spFromCFirstDerivatives(c, t, p);
      expect(Math.abs(found.dSpDc - dSpDc)).toBeLessThan(6e-5);
      expect(Math.abs(found.dSpDt - dSpDt)).toBeLessThan(6e-5);
      expect(Math.abs(found.dSpDp - dSpDp)).toBeLessThan(6e-7);
    });

  it("1e-4 of the conductivity is worth 0.0039 at salinity 35, almost whatever t and p, and 0.00075 at 7", () => {
    for (const [sp, t, p, worth] of [
      [35, 25, 5, 0.0039],
      [35, 2, 5000, 0.0039],
      [7, 8, 20, 0.00075],
    ] as const) {
      const c = cFromSp(sp, t, p);
      expect(1e-4 * c * spFromCFirstDerivatives(c, t, p).dSpDc).toBeCloseTo(worth, 4);
    }
  });

  it("they are the slopes of spFromC above salinity 2", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2.1, max: 42, noNaN: true }),
        temperature,
        pressure,
        agreesWithDifferences,
      ),
      {
        seed: 78,
        numRuns: 500,
      },
    );
  });

  it("they are the slopes of spFromC below salinity 2", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 1.7, noNaN: true }),
        temperature,
        pressure,
        agreesWithDifferences,
      ),
      {
        seed: 86,
        numRuns: 500,
      },
    );
  });

  it("the slope with conductivity has a kink at salinity 2, where the value has none", () => {
    const c = cFromSp(2, 30, 0);
    const [below, above] = [c * (1 - 1e-9), c * (1 + 1e-9)];
    expect(spFromC(above, 30, 0) - spFromC(below, 30, 0)).toBeLessThan(1e-8);
    const kink =
      spFromCFirstDerivatives(above, 30, 0).dSpDc - spFromCFirstDerivatives(below, 30, 0).dSpDc;
    expect(Math.abs(kink)).toBeGreaterThan(1e-5);
  });

  it("they are 0 where the salinity is held at 0, and NaN for a negative or missing value", () => {
    expect(spFromCFirstDerivatives(1e-4, 15, 0).dSpDc).toBe(0);
    for (const [c, t, p] of [
      [-1, 15, 0],
      [Number.NaN, 15, 0],
      [40, Number.NaN, 0],
      [40, 15, Number.NaN],
    ] as const)
      expect(Object.values(spFromCFirstDerivatives(c, t, p)).some(Number.isNaN)).toBe(true);
  });
});
