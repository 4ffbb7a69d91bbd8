import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  cFromSp,
  ctFromT,
  inPss78Range,
  pt0FromT,
  ptFromT,
  rho,
  sigma0,
  spFromC,
  spFromSr,
  srFromSp,
  t68FromT90,
  t90FromT68,
  tFreezing,
  tFromCt,
} from "../../src/seawater/index.js";

const salinity = fc.double({ min: 0, max: 42, noNaN: true });
const temperature = fc.double({ min: -2, max: 35, noNaN: true });
const pressure = fc.double({ min: 0, max: 10000, noNaN: true });

describe("Practical Salinity", () => {
  it("comes back from its own conductivity within 1e-12", () => {
    fc.assert(
      fc.property(salinity, temperature, pressure, (sp, t, p) => {
        expect(Math.abs(spFromC(cFromSp(sp, t, p), t, p) - sp)).toBeLessThan(1e-12);
      }),
      { seed: 1, numRuns: 2000 },
    );
  });

  it("rises with conductivity, through salinity 2 as well", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.0025, max: 70, noNaN: true }),
        fc.double({ min: 1e-6, max: 0.1, noNaN: true }),
        temperature,
        pressure,
        (c, step, t, p) => {
          expect(spFromC(c * (1 + step), t, p)).toBeGreaterThan(spFromC(c, t, p));
        },
      ),
      { seed: 2, numRuns: 2000 },
    );
  });

  it("never falls as conductivity rises from 0", () => {
    for (const t of [-2, 15, 35]) {
      let before = spFromC(0, t, 0);
      expect(before).toBe(0);
      for (let c = 1e-6; c < 0.02; c *= 1.01) {
        const sp = spFromC(c, t, 0);
        expect(sp).toBeGreaterThanOrEqual(before);
        before = sp;
      }
    }
  });

  it("of a negative conductivity is NaN, of none 0", () => {
    expect(spFromC(-0.01, 15, 0)).toBeNaN();
    expect(spFromC(0, 15, 0)).toBe(0);
    expect(spFromC(-0, 15, 0)).toBe(0);
    expect(cFromSp(-0.1, 15, 0)).toBeNaN();
  });

  it("of 0 has the small conductivity at which the extension passes through 0, as in the reference code (GSW 3.6.16)", () => {
    const reference = [
      [-2, 0.0007127554402292206],
      [15, 0.0013459718190490257],
      [35, 0.0022352891295049984],
    ] as const;
    for (const [t, c] of reference) expect(cFromSp(0, t, 0)).toBeCloseTo(c, 12);
  });

  it("outside the scale is what the same formula gives, as in the reference code (GSW 3.6.16)", () => {
    expect(cFromSp(50, 15, 0)).toBeCloseTo(58.8484141, 6);
    expect(cFromSp(100, 15, 0)).toBeCloseTo(105.786908, 5);
    expect(spFromC(cFromSp(45, 38, 10900), 38, 10900)).toBeCloseTo(45, 12);
  });

  it("is defined from 2 to 42, -2 to 35 degree C and 0 to 10,000 dbar (UNESCO 1983)", () => {
    for (const point of [
      [2, -2, 0],
      [42, 35, 10000],
      [35, 10, 4000],
    ] as const)
      expect(inPss78Range(point[0], point[1], point[2])).toBe(true);
    for (const point of [
      [1.99, 10, 0],
      [42.01, 10, 0],
      [35, -2.01, 0],
      [35, 35.01, 0],
      [35, 10, -0.1],
      [35, 10, 10001],
      [Number.NaN, 10, 0],
      [35, Number.NaN, 0],
      [35, 10, Number.NaN],
    ] as const)
      expect(inPss78Range(point[0], point[1], point[2])).toBe(false);
  });
});

describe("temperature and density", () => {
  it("a parcel moved to another pressure and back has its original temperature", () => {
    fc.assert(
      fc.property(salinity, temperature, pressure, pressure, (sa, t, p, q) => {
        expect(Math.abs(ptFromT(sa, ptFromT(sa, t, p, q), q, p) - t)).toBeLessThan(1e-11);
        expect(Math.abs(tFromCt(sa, ctFromT(sa, t, p), p) - t)).toBeLessThan(1e-10);
      }),
      { seed: 3, numRuns: 500 },
    );
  });

  it("at 0 dbar potential temperature is temperature, and potential density is density", () => {
    fc.assert(
      fc.property(salinity, temperature, (sa, t) => {
        expect(pt0FromT(sa, t, 0)).toBeCloseTo(t, 12);
        expect(rho(sa, t, 0) - 1000).toBeCloseTo(sigma0(sa, t), 12);
      }),
      { seed: 4 },
    );
  });

  it("standard seawater at 0 degree C and 0 dbar has Conservative Temperature 0 within 1e-7 K (the reference state of TEOS-10)", () => {
    expect(ctFromT(35.16504, 0, 0)).toBeCloseTo(0, 6);
  });

  it("fresh water is heaviest near 4 degree C", () => {
    const heaviest = (low: number, high: number) =>
      sigma0(0, ctFromT(0, (low + high) / 2, 0)) >
      Math.max(sigma0(0, ctFromT(0, low, 0)), sigma0(0, ctFromT(0, high, 0)));
    expect(heaviest(2, 6)).toBe(true);
  });

  it("air-free fresh water at 0 dbar freezes at 2.5 mK above 0 degree C, air-saturated at 0.1 mK (TEOS-10)", () => {
    expect(tFreezing(0, 0, 0)).toBeCloseTo(0.0025193, 7);
    expect(tFreezing(0, 0, 1)).toBeCloseTo(0.0001193, 7);
  });

  it("the two scales of temperature differ by 0.00024 of the temperature (Saunders 1990)", () => {
    expect(t68FromT90(20) - 20).toBeCloseTo(0.0048, 10);
    expect(t90FromT68(t68FromT90(17.3))).toBeCloseTo(17.3, 13);
  });

  it("a salinity of 35 is 35.16504 g/kg of standard seawater (Millero et al. 2008)", () => {
    expect(srFromSp(35)).toBeCloseTo(35.16504, 13);
    expect(spFromSr(srFromSp(12.3))).toBeCloseTo(12.3, 13);
  });

  it("a missing value or a negative salinity gives NaN", () => {
    for (const f of [ctFromT, pt0FromT, rho, cFromSp, spFromC, tFromCt]) {
      expect(f(Number.NaN, 10, 100)).toBeNaN();
      expect(f(35, Number.NaN, 100)).toBeNaN();
      expect(f(35, 10, Number.NaN)).toBeNaN();
      expect(f(-0.01, 10, 100)).toBeNaN();
    }
    for (const [sa, p, air] of [
      [Number.NaN, 0, 0],
      [35, Number.NaN, 0],
      [35, 0, Number.NaN],
      [-1, 0, 0],
    ] as const)
      expect(tFreezing(sa, p, air)).toBeNaN();
    expect(sigma0(-0.01, 10)).toBeNaN();
  });
});
