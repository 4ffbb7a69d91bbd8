import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ctFromT, inPss78Range, pt0FromT, rho, srFromSp } from "../../src/seawater/index.js";
import { completed } from "../../src/simulate/completed.js";
import { internalWaves } from "../../src/simulate/internalWaves.js";
import { oceanNames } from "../../src/simulate/oceans.js";
import { randomStream } from "../../src/simulate/random.js";
import type { Scenario } from "../../src/simulate/scenario.js";
import { type CastWater, waterOf } from "../../src/simulate/water.js";

const legs = ["down", "up"] as const;
const levels = (deepest: number, n: number) =>
  Array.from({ length: n }, (_, i) => ((i + 1) * deepest) / n);
const column = (scenario: Scenario, cast: number) => {
  const complete = completed(scenario);
  return { water: waterOf(complete, cast), deepest: complete.deepest_dbar };
};
const thetaOf = (water: CastWater, leg: "down" | "up", p: number) => {
  const { salinity, temperature_C } = water(leg, p);
  return pt0FromT(srFromSp(salinity), temperature_C, p);
};

describe("invented water", () => {
  for (const ocean of oceanNames) {
    it(`density increases with depth everywhere in the simulated ocean "${ocean}" (density of Roquet et al. 2015)`, () => {
      fc.assert(
        fc.property(fc.nat(1e6), fc.integer({ min: 1, max: 60 }), (seed, cast) => {
          const { water, deepest } = column({ seed, casts: 60, ocean }, cast);
          for (const leg of legs) {
            const parcels = levels(deepest, 300).map((p) => {
              const { salinity, temperature_C } = water(leg, p);
              expect(inPss78Range(salinity, temperature_C, p)).toBe(true);
              const sa = srFromSp(salinity);
              return { p, sa, ct: ctFromT(sa, temperature_C, p) };
            });
            parcels.slice(1).forEach((lower, i) => {
              const upper = parcels[i]!;
              const between = (upper.p + lower.p) / 2;
              const difference =
                rho(lower.sa, lower.ct, between) - rho(upper.sa, upper.ct, between);
              expect(difference, `${leg} at ${between} dbar`).toBeGreaterThan(0);
            });
          }
        }),
        { seed: 1, numRuns: 10 },
      );
    });
  }

  it("with a front between the legs, density increases with depth except in thin slivers", () => {
    let overturned = 0;
    let all = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const front = { kind: "front", cast: 1, salinity: 0.05 } as const;
      const { water, deepest } = column({ seed, casts: 1, events: [front] }, 1);
      let above: { sa: number; ct: number } | undefined;
      for (const p of levels(deepest, 200)) {
        const { salinity, temperature_C } = water("up", p);
        const sa = srFromSp(salinity);
        const here = { sa, ct: ctFromT(sa, temperature_C, p) };
        if (above !== undefined && rho(here.sa, here.ct, p) < rho(above.sa, above.ct, p))
          overturned++;
        above = here;
        all++;
      }
    }
    expect(overturned / all).toBeLessThan(0.01);
  });

  it("salinity differs across a front, and density hardly does: temperature compensates", () => {
    const front = { kind: "front", cast: 1, salinity: 0.1 } as const;
    const across = column({ seed: 4, casts: 1, events: [front] }, 1).water;
    const without = column({ seed: 4, casts: 1 }, 1).water;
    let bySalinity = 0;
    let inAll = 0;
    for (const p of levels(1500, 150).filter((level) => level > 80)) {
      const [a, b] = [across("up", p), without("up", p)];
      const [sa, sb] = [srFromSp(a.salinity), srFromSp(b.salinity)];
      const ctB = ctFromT(sb, b.temperature_C, p);
      bySalinity += Math.abs(rho(sa, ctB, p) - rho(sb, ctB, p));
      inAll += Math.abs(rho(sa, ctFromT(sa, a.temperature_C, p), p) - rho(sb, ctB, p));
      expect(across("down", p)).toEqual(without("down", p));
    }
    expect(bySalinity).toBeGreaterThan(0);
    expect(inAll / bySalinity).toBeLessThan(0.1);
  });

  it("both legs have the same water at the turn, and other water far above it", () => {
    const { water, deepest } = column({ seed: 5, casts: 3 }, 2);
    expect(water("up", deepest).salinity).toBeCloseTo(water("down", deepest).salinity, 9);
    expect(water("up", deepest).temperature_C).toBeCloseTo(water("down", deepest).temperature_C, 9);
    expect(thetaOf(water, "up", 300)).not.toBeCloseTo(thetaOf(water, "down", 300), 3);
  });

  it("below 1500 dbar, salinity at equal temperature differs by less than 0.001 between the legs", () => {
    for (let cast = 1; cast <= 10; cast++) {
      const { water, deepest } = column({ seed: 6, casts: 10, deepest_dbar: 3000 }, cast);
      const deep = levels(deepest, 300).filter((p) => p > 1500);
      const slope = (p: number) =>
        (water("down", p + 50).salinity - water("down", p - 50).salinity) /
        (thetaOf(water, "down", p + 50) - thetaOf(water, "down", p - 50));
      const differences = deep.slice(0, -10).map((p) => {
        const dTheta = thetaOf(water, "up", p) - thetaOf(water, "down", p);
        return water("up", p).salinity - water("down", p).salinity - slope(p) * dTheta;
      });
      const squares = differences.reduce((sum, d) => sum + d * d, 0);
      expect(Math.sqrt(squares / differences.length)).toBeLessThan(0.001);
    }
  });

  it("neighbouring stations have more similar water than stations ten apart", () => {
    let near = 0;
    let far = 0;
    for (let seed = 1; seed <= 10; seed++) {
      const at = (cast: number) => column({ seed, casts: 40 }, cast).water("down", 250).salinity;
      for (let cast = 1; cast <= 30; cast += 3) {
        near += (at(cast + 1) - at(cast)) ** 2;
        far += (at(cast + 10) - at(cast)) ** 2;
      }
    }
    expect(near).toBeLessThan(far);
  });

  it("internal waves displace open-ocean water by 7 m root mean square (Munk 1981, from memory)", () => {
    let squares = 0;
    let n = 0;
    for (let seed = 0; seed < 200; seed++) {
      const waves = internalWaves(randomStream(seed), 3000);
      for (let p = 50; p < 3000; p += 100) {
        squares += waves(p, 3600 * seed) ** 2;
        n++;
      }
    }
    expect(Math.sqrt(squares / n)).toBeGreaterThan(6.3);
    expect(Math.sqrt(squares / n)).toBeLessThan(7.7);
  });

  it("no internal wave turns water over: displacement changes by less than depth does", () => {
    fc.assert(
      fc.property(fc.nat(1e6), fc.double({ min: 50, max: 6000, noNaN: true }), (seed, bottom) => {
        const waves = internalWaves(randomStream(seed), bottom);
        const step = bottom / 400;
        for (let p = 0; p < bottom; p += step) {
          expect(Math.abs(waves(p + step, 1000) - waves(p, 1000))).toBeLessThan(step);
        }
      }),
      { seed: 2, numRuns: 40 },
    );
  });
});
