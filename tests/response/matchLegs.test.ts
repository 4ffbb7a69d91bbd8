import fc from "fast-check";
import { expect, test } from "vitest";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { type MatchedLegs, matchLegs } from "../../src/response/match/matchLegs.js";
import { cFromSp, ptFromT, srFromSp } from "../../src/seawater/index.js";
import { median } from "../../src/statistics/robustCentre.js";
import { castOf } from "../cast/castOf.js";

/** A cast of 1 dbar averages through water given by its state at each pressure on either leg. */
function passTwice(
  deepest: number,
  water: (p: number, leg: "down" | "up") => { readonly theta: number; readonly salinity: number },
  upGain = 1,
): MatchedLegs {
  const levels = Array.from({ length: deepest - 5 }, (_, i) => i + 6);
  const pressure = [...levels, ...levels.toReversed()];
  const states = pressure.map((p, i) => water(p, i < levels.length ? "down" : "up"));
  const temperature = states.map(({ theta, salinity }, i) =>
    ptFromT(srFromSp(salinity), theta, 0, pressure[i]!),
  );
  const conductivity = states.map(
    ({ salinity }, i) =>
      cFromSp(salinity, temperature[i]!, pressure[i]!) * (i < levels.length ? 1 : upGain),
  );
  const cast = castOf(pressure, temperature, conductivity);
  return matchLegs(cast, splitLegs(cast), "primary");
}

const theta = (p: number) => 2 + 12 * Math.exp(-p / 300);
const salinity = (p: number) => 34.6 + 1.2 * Math.exp(-p / 200);
const still = (p: number) => ({ theta: theta(p), salinity: salinity(p) });

test("legs in the same unmoved water do not differ", () => {
  const { difference_ppm } = passTwice(1000, still);
  expect(difference_ppm.length).toBeGreaterThan(900);
  for (const d of difference_ppm) expect(Math.abs(d)).toBeLessThan(0.5);
});

test("water that internal waves moved 25 dbar between the legs is found where it went", () => {
  const moved = passTwice(1000, (p, leg) => still(leg === "down" ? p : p - 25));
  // At equal pressure salinity would differ by 25 dbar x 0.006 per dbar, thousands of ppm.
  expect(Math.abs(median(moved.difference_ppm))).toBeLessThan(0.5);
  const shift = moved.pressureUp_dbar.map((p, i) => p - moved.pressureDown_dbar[i]!);
  expect(median(shift)).toBeCloseTo(25, 0);
});

test("a cell that lost a share of its conductivity before the up leg differs by that share", () => {
  fc.assert(
    fc.property(fc.double({ min: -3000, max: 3000, noNaN: true }), (ppm) => {
      const { difference_ppm } = passTwice(400, still, Math.exp(ppm * 1e-6));
      expect(Math.abs(median(difference_ppm) - ppm)).toBeLessThan(0.5 + 0.005 * Math.abs(ppm));
    }),
    { seed: 4, numRuns: 15 },
  );
});

test("where temperature is uniform the legs are compared at equal pressure", () => {
  const mixed = passTwice(600, (p) => ({ theta: 1, salinity: 34.7 + 1e-5 * p }));
  expect(mixed.atPressure).toBe(mixed.difference_ppm.length);
  for (const d of mixed.difference_ppm) expect(Math.abs(d)).toBeLessThan(0.5);
});

test("a temperature met twice with different salinities has a large ambiguity", () => {
  // A cold intermediate layer at 150 dbar: fresher above, saltier below.
  const inverted = passTwice(400, (p) => ({
    theta: 1 + (3 * Math.abs(p - 150)) / 150,
    salinity: 33 + 0.01 * p,
  }));
  const near = inverted.ambiguity_ppm.filter((_, i) => {
    const p = inverted.pressureUp_dbar[i]!;
    return p > 130 && p < 145;
  });
  // 10 to 40 dbar of 0.01 per dbar, at some 29 000 ppm per unit of salinity.
  expect(median(near)).toBeGreaterThan(2000);
  const far = inverted.ambiguity_ppm.filter((_, i) => inverted.pressureUp_dbar[i]! > 250);
  expect(Math.max(...far)).toBe(0);
});

test("temperatures that occur on one leg only are not matched", () => {
  const colder = passTwice(300, (p, leg) => ({
    theta: leg === "down" ? 5 - 0.01 * p : -0.01 * p,
    salinity: 34,
  }));
  expect(colder.difference_ppm.length).toBe(0);
  expect(colder.unmatched).toBeGreaterThan(200);
});
