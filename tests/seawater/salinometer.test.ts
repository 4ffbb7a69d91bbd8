import { describe, expect, it } from "vitest";
import { spSalinometer, spSalinometerColumn, t90FromT68 } from "../../src/seawater/index.js";

// Salinity by Rt and IPTS-68 bath temperature, computed with the TEOS-10 reference code (GSW 3.6.16), printed to 1e-9.
const baths = [15, 20, 21, 24, 27, 30];
const table: [rt: number, salinities: number[]][] = [
  [0.01, [0.258002959, 0.256707232, 0.256471023, 0.255802434, 0.255188208, 0.254621974]],
  [0.05, [1.380934119, 1.374621631, 1.373470866, 1.370213629, 1.367221226, 1.36446262]],
  [0.1, [2.877001602, 2.865316743, 2.863186802, 2.85715835, 2.851620493, 2.846515684]],
  [0.2, [6.037366052, 6.017051098, 6.013348044, 6.002867154, 5.993239196, 5.984364124]],
  [0.5, [16.286128344, 16.255306722, 16.24968849, 16.233787001, 16.219179571, 16.205714411]],
  [0.8, [27.303162834, 27.283918389, 27.28041047, 27.270481877, 27.26136127, 27.252953876]],
  [0.9, [31.117680014, 31.106948609, 31.104992465, 31.099455919, 31.094369936, 31.089681666]],
  [0.95, [33.050417199, 33.044778468, 33.043750628, 33.040841494, 33.038169105, 33.035705691]],
  [0.98, [34.218149609, 34.215829142, 34.215406162, 34.214208987, 34.213109237, 34.212095486]],
  [0.99, [34.60873885, 34.607567834, 34.607354378, 34.606750227, 34.606195242, 34.605683656]],
  [1, [35, 35, 35, 35, 35, 35]],
  [1.01, [35.39193276, 35.393125272, 35.393342646, 35.393957887, 35.39452306, 35.395044038]],
  [1.02, [35.784536885, 35.786943337, 35.787381991, 35.788623527, 35.789764028, 35.790815344]],
  [1.05, [36.966375819, 36.972551951, 36.97367775, 36.97686414, 36.979791223, 36.982489413]],
  [1.1, [38.949526891, 38.962407835, 38.964755802, 38.971401338, 38.977506061, 38.983133409]],
  [1.2, [42.96623016, 42.994071637, 42.999146642, 43.013510615, 43.026705652, 43.038868864]],
];

describe("spSalinometer", () => {
  for (const [rt, salinities] of table)
    it(`a ratio of ${rt} has the tabled salinity at every bath temperature`, () => {
      salinities.forEach((salinity, i) => {
        expect(Math.abs(spSalinometer(rt, t90FromT68(baths[i]!)) - salinity)).toBeLessThan(6e-10);
      });
    });

  it("a standard of K15 0.99985 has salinity 34.994, as labels of that K15 print it", () => {
    // K15 is Rt at 15 degree C on IPTS-68. The label's three decimals are from memory.
    expect(spSalinometer(0.99985, t90FromT68(15)).toFixed(3)).toBe("34.994");
  });

  it("standard seawater against itself is 35 in a bath of any temperature", () => {
    for (const t of [-2, 0, 15, 24, 35]) expect(spSalinometer(1, t)).toBeCloseTo(35, 12);
  });

  it("the whole column equals its values one by one", () => {
    const rt = Float64Array.from(table, ([ratio]) => ratio);
    const t = new Float64Array(rt.length).fill(24);
    expect(Array.from(spSalinometerColumn(rt, t))).toEqual(
      Array.from(rt, (ratio) => spSalinometer(ratio, 24)),
    );
  });

  it("a negative ratio and a missing one are NaN", () => {
    expect(spSalinometer(-0.1, 24)).toBeNaN();
    expect(spSalinometer(Number.NaN, 24)).toBeNaN();
    expect(spSalinometer(1, Number.NaN)).toBeNaN();
  });
});
