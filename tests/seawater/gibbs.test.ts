import { describe, expect, it } from "vitest";
import { entropyIce, gibbsIce } from "../../src/seawater/gibbsIce.js";
import { surfaceHeatCapacity } from "../../src/seawater/gibbsSeawater.js";

const seaPressure = (pascal: number) => (pascal - 101325) / 1e4;

// IAPWS R10-06(2009), table 6: temperature K, pressure Pa, Gibbs energy J/kg, entropy J/(kg K). Printed values from memory.
const ice = [
  [273.16, 611.657, 0.611784135, -1220.6943394],
  [273.152519, 101325, 101.34274069, -1220.7693255],
  [100, 100e6, -222296.513088, -2611.95122589],
] as const;

describe("the Gibbs function of ice Ih", () => {
  for (const [temperature, pascal, gibbs, entropy] of ice)
    it(`has the energy and entropy that IAPWS print at ${temperature} K and ${pascal} Pa`, () => {
      const [t, p] = [temperature - 273.15, seaPressure(pascal)];
      // The energy is a difference of numbers of 1e6 at the triple point, good to 1e-9 there.
      expect(Math.abs(gibbsIce(t, p) - gibbs)).toBeLessThan(1e-9 * Math.max(1, Math.abs(gibbs)));
      expect(Math.abs(entropyIce(t, p) - entropy)).toBeLessThan(1e-7);
    });
});

describe("the heat capacity at 0 dbar", () => {
  it("of standard seawater at 0 degree C is within 0.2 % of the constant that defines Conservative Temperature", () => {
    expect(surfaceHeatCapacity(35.16504, 0) / 3991.86795711963).toBeCloseTo(1, 2);
  });

  // Computed with the TEOS-10 reference code (cp_t_exact, GSW 3.6.16).
  it("agrees with the reference code in fresh and salt water", () => {
    expect(surfaceHeatCapacity(0, 10)).toBeCloseTo(4195.144385880819, 8);
    expect(surfaceHeatCapacity(35, 20)).toBeCloseTo(3996.95555240387, 8);
  });
});
