import { describe, expect, it } from "vitest";
import { cFromSp, spFromC, spSalinometer, t90FromT68 } from "../../src/seawater/index.js";

const C3515 = 42.914;

// UNESCO Technical Papers in Marine Science 44 (1983), pages 9 and 11: R, t68, p, and the salinity printed.
const printed = [
  { r: 1, t68: 15, p: 0, s: 35.0, places: 6, rt: 1 },
  { r: 1.2, t68: 20, p: 2000, s: 37.245628, places: 6, rt: 1.0568875 },
  { r: 0.65, t68: 5, p: 1500, s: 27.995347, places: 6, rt: 0.81705885 },
  { r: 1.888091, t68: 40, p: 10000, s: 40.0, places: 5, rt: undefined },
];

// The same convention, computed at full precision from the published equations: S, t68, p, R.
const furtherRatios = [
  [35, 0, 0, 0.6766096999999999],
  [35, 20, 0, 1.1164927159999996],
  [35, 30, 0, 1.3596790609999996],
  [42, 35, 0, 1.744205748808693],
  [10, 10, 0, 0.28253919284778434],
  [20, 25, 1000, 0.753974170925985],
] as const;

describe("Practical Salinity against UNESCO Technical Paper 44", () => {
  for (const { r, t68, p, s, places } of printed)
    it(`a ratio of ${r} at ${t68} degree C and ${p} dbar is salinity ${s.toFixed(places)}`, () => {
      expect(spFromC(r * C3515, t90FromT68(t68), p)).toBeCloseTo(s, places);
    });

  for (const { t68, s, places, rt } of printed)
    if (rt !== undefined)
      it(`the printed Rt ${rt} at ${t68} degree C is salinity ${s.toFixed(places)} in the salinometer`, () => {
        // The seven decimals of Rt leave 5e-8, which is 2e-6 in salinity.
        expect(Math.abs(spSalinometer(rt, t90FromT68(t68)) - s)).toBeLessThan(2.5e-6);
      });

  it("salinity 40 at 40 degree C and 10,000 dbar is a ratio of 1.888091", () => {
    expect(cFromSp(40, t90FromT68(40), 10000) / C3515).toBeCloseTo(1.888091, 6);
  });

  for (const [s, t68, p, r] of furtherRatios)
    it(`salinity ${s} at ${t68} degree C and ${p} dbar is a ratio of ${r.toFixed(9)}`, () => {
      expect(cFromSp(s, t90FromT68(t68), p) / C3515).toBeCloseTo(r, 12);
    });

  it("the definition point is 35 within the 1.9e-9 by which the published c0 to c4 miss 1", () => {
    expect(spFromC(42.914, t90FromT68(15), 0)).toBeCloseTo(34.99999992412809, 12);
  });

  it("taking an IPTS-68 temperature for an ITS-90 one shifts the salinity by 0.0042 at 20 degree C", () => {
    const right = spFromC(1.2 * C3515, t90FromT68(20), 2000);
    expect(right - spFromC(1.2 * C3515, 20, 2000)).toBeCloseTo(0.0042, 4);
  });
});
