import { describe, expect, it } from "vitest";
import type { Bottle } from "../../src/cast/bottle.js";
import { spFromC } from "../../src/seawater/index.js";
import { simulateCruise } from "../../src/simulate/cruise.js";
import type { SimulatedEvent } from "../../src/simulate/events.js";
import type { Scenario } from "../../src/simulate/scenario.js";

const residual = ({ salinity, pressure_dbar, ctd }: Bottle) => {
  const { conductivity_mS_cm, temperature_C } = ctd!.primary!;
  return salinity - spFromC(conductivity_mS_cm, temperature_C, pressure_dbar);
};
/** Half the width of the middle 95 %. */
const halfWidth = (values: readonly number[]) => {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))]!;
  return (at(0.975) - at(0.025)) / 2;
};
/** Of the casts these tests read the bottles only. */
const sampling = { kind: "averages", layer_dbar: 100 } as const;
const many = Array.from(
  { length: 30 },
  (_, seed) =>
    simulateCruise({
      seed,
      casts: 12,
      deepest_dbar: 4000,
      sampling,
      laboratory: { leakRate: 0, misTripRate: 0 },
    }).cruise.bottles,
).flat();

const base: Scenario = { seed: 7, casts: 6, sampling, laboratory: { leakRate: 0, misTripRate: 0 } };
const bottlesWith = (...events: SimulatedEvent[]) =>
  simulateCruise({ ...base, events }).cruise.bottles;
const plain = bottlesWith();
/** Which bottles differ from those of the plain cruise, and by how much. */
const moved = (bottles: readonly Bottle[]) =>
  bottles.flatMap((bottle, i) => {
    const by = bottle.salinity - plain[i]!.salinity;
    return Math.abs(by) > 1e-12 ? [{ cast: bottle.cast, bottle: bottle.bottle, by }] : [];
  });

describe("simulated bottles", () => {
  it("95 % of simulated bottles below 2000 dbar lie within 0.0016 to 0.0022 of a sound cell (GO-SHIP reports of 2021 and 2022)", () => {
    const deep = many.filter(({ pressure_dbar }) => pressure_dbar >= 2000).map(residual);
    expect(deep.length).toBeGreaterThan(1000);
    expect(halfWidth(deep)).toBeGreaterThan(0.0016);
    expect(halfWidth(deep)).toBeLessThan(0.0022);
  });

  it("simulated bottles of all depths scatter more, within the 0.0083 of the same reports", () => {
    const all = halfWidth(many.map(residual));
    expect(all).toBeGreaterThan(0.0025);
    expect(all).toBeLessThan(0.0083);
  });

  it("bottles are fresher than the cell where salinity falls with depth: they carry water from below (P02 report of 2022)", () => {
    const thermocline = many.filter(({ pressure_dbar: p }) => p > 80 && p < 450).map(residual);
    const mean = thermocline.reduce((sum, r) => sum + r, 0) / thermocline.length;
    expect(mean).toBeLessThan(-0.0005);
  });

  it("bottles of one laboratory run share an error of 0.0003 (Kawano et al. 2006)", () => {
    const quiet = Array.from({ length: 40 }, (_, seed) =>
      simulateCruise({
        seed,
        casts: 4,
        deepest_dbar: 4000,
        sampling,
        laboratory: { salinitySd: 0, wake_dbar: 0, leakRate: 0, misTripRate: 0 },
      }).cruise.bottles.filter(({ pressure_dbar }) => pressure_dbar > 1500),
    ).flat();
    const means = Array.from({ length: 80 }, (_, k) => {
      const own = quiet.slice((k * quiet.length) / 80, ((k + 1) * quiet.length) / 80);
      expect(new Set(own.map(({ run }) => run)).size).toBe(1);
      return own.reduce((sum, bottle) => sum + residual(bottle), 0) / own.length;
    });
    const sd = Math.sqrt(means.reduce((sum, m) => sum + m * m, 0) / means.length);
    expect(sd).toBeGreaterThan(0.00022);
    expect(sd).toBeLessThan(0.0004);
  });

  it("a wrong standard shifts all bottles of its laboratory run and no others", () => {
    const wrong = moved(bottlesWith({ kind: "reference-offset", of: "run 2", salinity: 0.005 }));
    expect(wrong.length).toBe(2 * 12);
    expect(new Set(wrong.map(({ cast }) => cast))).toEqual(new Set(["003", "004"]));
    for (const { by } of wrong) expect(by).toBeCloseTo(0.005, 9);
  });

  it("a leaking bottle contains water from near the surface, and a mis-tripped one water of another depth", () => {
    const [leaked] = moved(bottlesWith({ kind: "leak", cast: 2, bottle: 3, share: 0.1 }));
    const surface = plain.find(({ cast, pressure_dbar }) => cast === "002" && pressure_dbar < 20)!;
    const own = plain.find(({ cast, bottle }) => cast === "002" && bottle === "3")!;
    expect(leaked!.by).toBeCloseTo(0.1 * (surface.salinity - own.salinity), 2);

    const tripped = moved(bottlesWith({ kind: "mis-trip", cast: 2, bottle: 3, closedWith: 9 }));
    const ninth = plain.find(({ cast, bottle }) => cast === "002" && bottle === "9")!;
    expect(tripped).toHaveLength(1);
    expect(own.salinity + tripped[0]!.by).toBeCloseTo(ninth.salinity, 2);
  });

  it("simulated bottles leak and mis-trip about as often as the scenario says", () => {
    const { cruise } = simulateCruise({
      ...base,
      casts: 60,
      laboratory: { leakRate: 0.05, misTripRate: 0.05 },
    });
    const sound = simulateCruise({ ...base, casts: 60 }).cruise;
    const wrong = cruise.bottles.filter(
      ({ salinity }, i) => salinity !== sound.bottles[i]!.salinity,
    );
    expect(wrong.length / cruise.bottles.length).toBeGreaterThan(0.06);
    expect(wrong.length / cruise.bottles.length).toBeLessThan(0.14);
  });

  it("bottles of the newest casts have no salinity until the laboratory measures them", () => {
    const { cruise } = simulateCruise({ ...base, laboratory: { newestUnmeasured: 2 } });
    const unmeasured = cruise.bottles.filter(({ salinity }) => Number.isNaN(salinity));
    expect(new Set(unmeasured.map(({ cast }) => cast))).toEqual(new Set(["005", "006"]));
    expect(unmeasured.every(({ ctd }) => Number.isFinite(ctd!.primary!.conductivity_mS_cm))).toBe(
      true,
    );
  });
});
