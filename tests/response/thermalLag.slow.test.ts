import { describe, expect, test } from "vitest";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { thermalLagOnCast } from "../../src/response/lag/thermalLagOnCast.js";
import { simulateWater, type Water } from "../evidence/simulateWater.js";

const slow = 240_000;

function lagOf(water: Water) {
  const cast = { ...simulateWater(water), sampleRate_Hz: 1 };
  return thermalLagOnCast(cast, splitLegs(cast), "primary");
}

function overManyCasts(water: Omit<Water, "seed">, casts: number) {
  const lag = water.lag!;
  const times = (lag.alpha * lag.tau_s) / (0.0245 * 9.5);
  let [squares, told, parts, alphas, taus, inside, us] = [0, 0, 0, 0, 0, 0, 0];
  for (let seed = 0; seed < casts; seed++) {
    const found = lagOf({ ...water, seed }).thermalLag;
    if (found === undefined) continue;
    told++;
    us += found.timesUsualUncertainty;
    const z = (found.timesUsual - times) / found.timesUsualUncertainty;
    squares += z * z;
    if (Math.abs(z) < 1.96) inside++;
    if (found.parts === undefined) continue;
    parts++;
    alphas += ((found.parts.alpha - lag.alpha) / found.parts.standardUncertainty.alpha) ** 2;
    taus += ((found.parts.tau_s - lag.tau_s) / found.parts.standardUncertainty.tau_s) ** 2;
  }
  return {
    told,
    squares: squares / told,
    inside: inside / told,
    u: us / told,
    parts,
    alphas: alphas / parts,
    taus: taus / parts,
  };
}

describe("the legs of simulated casts", () => {
  test.each([
    { deepest_dbar: 400, lag: { alpha: 0.0245, tau_s: 9.5 } },
    { deepest_dbar: 400, lag: { alpha: 0.06, tau_s: 7 } },
    { deepest_dbar: 1500, lag: { alpha: 0.0245, tau_s: 9.5 } },
    { deepest_dbar: 1500, lag: { alpha: 0.05, tau_s: 14 } },
    { deepest_dbar: 1500, lag: { alpha: 0, tau_s: 9.5 } },
    {
      deepest_dbar: 1500,
      lag: { alpha: 0.0245, tau_s: 9.5 },
      film: { ppm: -300, pressure_dbar: 180, leg: "up" as const },
    },
  ])(
    "recover a known lag within the stated uncertainty, with or without a film: %o",
    (water) => {
      const seen = overManyCasts(water, 40);
      expect(seen.told).toBe(40);
      expect(seen.inside).toBeGreaterThanOrEqual(0.85);
      expect(seen.squares).toBeGreaterThan(0.4);
      expect(seen.squares).toBeLessThan(1.6);
      expect(seen.u).toBeLessThan(0.25);
      if (seen.parts === 0) return;
      expect(seen.alphas).toBeLessThan(1.6);
      expect(seen.taus).toBeLessThan(1.6);
    },
    slow,
  );
});
