// Bottles and the laboratory of the worlds.
import { describe, expect, it } from "vitest";
import { randomStream } from "../../../src/simulate/random.js";
import { carriedFrom, closeBottles, drawFlushing } from "../../../src/simulate/worlds/bottles.js";
import { drawLaboratory, measure, type Sampled } from "../../../src/simulate/worlds/laboratory.js";
import { drawPlan } from "../../../src/simulate/worlds/plan.js";

const plan = drawPlan(randomStream(3), { casts: 1 });
const cast = plan.casts[0]!;
const tight = { ...drawFlushing(randomStream(4)), leaks: 0, misTrips: 0 };

describe("bottles on the up leg", () => {
  it.each([
    ["falls toward the surface", 1e-3, 1],
    ["rises toward the surface", -1e-3, -1],
  ])(
    "where salinity %s, the bottle differs from the water with the published sign [CruiseReports2022]",
    (_, perDbar, sign) => {
      const salinity = (p: number) => 34 + perDbar * p;
      const water = { salinity, temperature: () => 5 };
      for (const bottle of closeBottles(randomStream(5), tight, cast, water)) {
        const difference = bottle.salinity - salinity(cast.journey.pressure[bottle.scan]!);
        expect(Math.sign(difference)).toBe(sign);
        // Water from some metres below, not tens [Codispoti1998].
        expect(Math.abs(difference / perDbar)).toBeLessThan(20);
      }
    },
  );

  it("a longer stop flushes more of the carried water out of the bottle [CruiseReports2022]", () => {
    expect(carriedFrom(tight, 60)).toBeLessThan(carriedFrom(tight, 30));
    expect(carriedFrom(tight, 30)).toBeLessThan(carriedFrom(tight, 10));
  });
});

describe("the laboratory", () => {
  const closed = Array.from({ length: 24 }, (_, k) => ({ scan: 4000 + 100 * k, salinity: 34.7 }));
  const sampled: Sampled = {
    cast: "001",
    index: 0,
    rate_Hz: 4,
    closed,
    pressure: new Float64Array(7000).fill(1500),
    measured: true,
    spoilt: undefined,
  };
  const usual = { ...drawLaboratory(randomStream(6)), evaporates: 0, grain: 1e-9, castsPerRun: 2 };
  const errors = (own: Partial<Sampled>, laboratory = usual) =>
    measure(randomStream(7), laboratory, { ...sampled, ...own }).map((b) => b.salinity - 34.7);

  it("spoilt samples are 0.005 to 0.1 too fresh, each by another amount", () => {
    const good = errors({});
    const lost = errors({ spoilt: [0.005, 0.1] }).map((error, k) => good[k]! - error);
    expect(Math.min(...lost)).toBeGreaterThanOrEqual(0.005 - 1e-8);
    expect(Math.max(...lost)).toBeLessThanOrEqual(0.1 + 1e-8);
    expect(Math.max(...lost) - Math.min(...lost)).toBeGreaterThan(0.03);
  });

  it("evaporation makes samples saltier", () => {
    const dry = errors({}, { ...usual, evaporates: 1 });
    expect(dry.every((error, k) => error > errors({})[k]!)).toBe(true);
  });

  it("casts of one run share its standardisation", () => {
    const exact = { ...usual, sampleSd: 0, driftSd: 0, runSd: 0.001 };
    expect(errors({ cast: "002", index: 1 }, exact)[3]).toBeCloseTo(errors({}, exact)[3]!, 8);
    expect(errors({ cast: "003", index: 2 }, exact)[3]).not.toBeCloseTo(errors({}, exact)[3]!, 8);
  });

  it("a deep sample scatters by 0.0003 to 0.0012, as deep bottles of published cruises do [CruiseReports2021]", () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const { sampleSd } = drawLaboratory(randomStream(seed));
      expect(sampleSd).toBeGreaterThan(0.00029);
      expect(sampleSd).toBeLessThan(0.00121);
    }
  });

  it("a sample not yet measured has no salinity, but a pressure and a time of closure", () => {
    for (const bottle of measure(randomStream(7), usual, { ...sampled, measured: false })) {
      expect(bottle.salinity).toBeNaN();
      expect(bottle.pressure_dbar).toBe(1500);
      expect(bottle.time_s).toBeGreaterThan(0);
    }
  });
});
