import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gainForSalinity, salinityError } from "../../src/model/salinityError.js";

describe("the effect of a gain error on salinity", () => {
  it("-100 ppm read fresh by 0.0039 at SP 35, at nearly any temperature and pressure, and by 0.00075 at SP 7", () => {
    // PSS-78 by the reference implementation GSW-C: 42.9175 mS/cm x 0.9124 per mS/cm x 1e-4 and so on.
    expect(salinityError(-100)).toBeCloseTo(-0.0039, 4);
    for (const [salinity, temperature_C, pressure_dbar, expected] of [
      [35, 25, 5, 53.0732 * 0.742e-4],
      [35, 15, 0, 42.9175 * 0.9124e-4],
      [34.9, 4, 1000, 32.9166 * 1.1792e-4],
      [34.7, 1.5, 4000, 31.715 * 1.2239e-4],
      [34.68, 1.5, 6000, 32.3357 * 1.2049e-4],
      [38.5, 13.5, 2000, 46.0302 * 0.9431e-4],
      [7, 8, 20, 8.2704 * 0.9097e-4],
      [34.3, -1.8, 50, 27.0252 * 1.3978e-4],
    ] as const) {
      const water = { salinity, temperature_C, pressure_dbar };
      expect(Math.abs(salinityError(-100, water) + expected)).toBeLessThan(1e-6);
    }
    expect(salinityError(-100, { salinity: 7, temperature_C: 8, pressure_dbar: 20 })).toBeCloseTo(
      -0.00075,
      5,
    );
  });

  it("the WOCE accuracy of 0.002 is 51 ppm", () => {
    // [McTaggartEtAl2010] for the figure; PSS-78: relative conductivity to 5.1e-5.
    expect(gainForSalinity(0.002)).toBeCloseTo(51, 0);
    expect(gainForSalinity(-0.002)).toBeCloseTo(-51, 0);
  });

  it("gain to salinity error and back is exact; zero gives zero; the relation is monotonic", () => {
    fc.assert(
      fc.property(fc.double({ min: -20_000, max: 20_000, noNaN: true }), (ppm) => {
        expect(Math.abs(gainForSalinity(salinityError(ppm)) - ppm)).toBeLessThan(1e-5);
        expect(salinityError(ppm + 1)).toBeGreaterThan(salinityError(ppm));
      }),
      { seed: 6 },
    );
    expect(salinityError(0)).toBeCloseTo(0, 12);
  });
});
