import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Bottle } from "../../../src/cast/bottle.js";
import {
  bottleNoise,
  type Departure,
  laboratorySalinity,
  usualBottleNoise,
} from "../../../src/evidence/bottles/bottleNoise.js";
import { bottlesEvidence } from "../../../src/evidence/bottles/bottles.js";
import { sharedWeight } from "../../../src/model/observation.js";
import { readExchangeBottles } from "../../../src/read/exchangeBottles.js";
import { spFromCFirstDerivatives } from "../../../src/seawater/index.js";
import { type Seeded, seeded } from "../seeded.js";
import { bottlesAt, type Closure, calm, column, reading } from "./closures.js";

const ofCast = (bottles: readonly Bottle[], noise = usualBottleNoise) =>
  bottlesEvidence("001", bottles, ["primary"], undefined, noise);

/** Samples of calm deep water with the laboratory's own error, and what spoils them. */
const sampled = (count: number, random: Seeded, spoil: (i: number) => number) =>
  bottlesAt(
    calm(count).map((closure, i) => ({
      ...closure,
      laboratory: 0.001 * random.normal() + spoil(i),
    })),
    { primary: -40 },
  );

describe("a spoilt batch", () => {
  it("the 95 % interval of a spoilt batch contains the truth, for errors of 0.005 to 0.1 in all or three quarters of the bottles", () => {
    for (const share of [1, 0.75]) {
      for (const sign of [1, -1]) {
        for (const [count, least] of [
          [6, 0.85],
          [8, 0.9],
          [12, 0.95],
          [24, 0.95],
        ] as const) {
          // Of six a chance core of three now and then looks sound.
          const random = seeded(100 * count + 10 * sign + share);
          let within = 0;
          const casts = 60;
          for (let cast = 0; cast < casts; cast++) {
            const off = () => sign * (0.005 + 0.095 * random.uniform());
            const bottles = sampled(count, random, () => (random.uniform() < share ? off() : 0));
            const { centre, shared_ppm, evidence } = ofCast(bottles);
            const { ppm, standardUncertainty_ppm } = centre!;
            if (Math.abs(ppm + 40) < 1.96 * standardUncertainty_ppm) within++;
            // Rows taken for independent are not too sure: their mean has the error that they share.
            const precision = evidence.observations.reduce((sum, o) => sum + 1 / o.variance, 0);
            expect(Math.sqrt(1 / precision)).toBeGreaterThan(0.999 * shared_ppm);
          }
          expect(within / casts).toBeGreaterThan(least);
        }
      }
    }
  });

  it("a spoilt batch gets a note with the shared error of its samples", () => {
    const random = seeded(3);
    const { evidence, shared_ppm } = ofCast(sampled(12, random, () => 0.1 * random.uniform()));
    expect(shared_ppm).toBeGreaterThan(500);
    expect(evidence.notes.join()).toMatch(
      /spoilt: its shared error has a standard deviation of \d+ ppm/,
    );
  });

  it("sound samples are not reported as a spoilt batch, and their centre has the stated error", () => {
    for (const count of [6, 12, 24]) {
      const random = seeded(count);
      const z: number[] = [];
      let doubted = 0;
      for (let cast = 0; cast < 200; cast++) {
        const { centre, shared_ppm } = ofCast(sampled(count, random, () => 0));
        z.push((centre!.ppm + 40) / centre!.standardUncertainty_ppm);
        if (shared_ppm > 0) doubted++;
      }
      expect(doubted / 200).toBeLessThan(0.03);
      const rms = Math.sqrt(z.reduce((sum, one) => sum + one ** 2, 0) / z.length);
      // A twentieth beside two standard errors of an rms of 200, 0.05 each: weights of strays and the scale are estimates.
      expect(rms).toBeGreaterThan(0.85);
      expect(rms).toBeLessThan(1.12);
    }
  });

  it("a spoilt batch does not affect later casts, nor make its own bottles certain", () => {
    const random = seeded(8);
    const spoilt = sampled(12, random, () => -0.1 * random.uniform());
    const noise = bottleNoise(ofCast(spoilt).departures);
    expect(noise.laboratory).toBeLessThan(1.6);
    expect(ofCast(spoilt, noise).shared_ppm).toBeGreaterThan(500);
  });

  it("spoilt batches on every cast are a poor laboratory, and the estimated noise grows", () => {
    const random = seeded(9);
    const departures: Departure[] = [];
    let last = ofCast([]);
    for (let cast = 0; cast < 40; cast++) {
      const bottles = sampled(12, random, () => 0.004 * random.normal());
      last = ofCast(bottles, bottleNoise(departures));
      departures.push(...last.departures);
    }
    expect(Math.abs(bottleNoise(departures).laboratory / Math.hypot(1, 4) - 1)).toBeLessThan(0.15);
    expect(last.shared_ppm).toBe(0);
  });
});

describe("the weight of one bottle", () => {
  const sds = (z: number) => {
    const closures = calm(24).map((closure, i) =>
      // Two sound ones in three by a quarter to either side, so that the centre stands where it is.
      i === 12
        ? { ...closure, laboratory: z * 0.001 }
        : { ...closure, laboratory: 0.00025 * ((i % 3) - 1) },
    );
    const { observations } = ofCast(bottlesAt(closures, { primary: 0 })).evidence;
    return Math.sqrt(observations.find(({ bottle }) => bottle === "13")!.variance);
  };

  it("the variance of a bottle grows beyond two standard deviations: at three by one half", () => {
    expect(sds(1.8) / sds(0)).toBeCloseTo(1, 2);
    expect((sds(3) / sds(0)) ** 2).toBeCloseTo(1.5, 1);
    expect((sds(3.8) / sds(0)) ** 2).toBeCloseTo(1.9, 1);
  });

  it("the weight of a bottle is at most that of its laboratory, even if all bottles agree", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 4, noNaN: true }),
        fc.constantFrom(calm(8), [3000, 2000, 1200, 800, 500, 300, 150, 60].map(column)),
        (gradient, closures) => {
          const noise = { laboratory: 1, gradient };
          for (const one of ofCast(bottlesAt(closures, { primary: 0 }), noise).evidence
            .observations) {
            const { conductivity_mS_cm: c, temperature_C: t } = one.water!;
            const { dSpDc } = spFromCFirstDerivatives(c, t, one.pressure_dbar);
            const laboratory = (1e6 * laboratorySalinity) / (c * dSpDc);
            expect(Math.sqrt(one.variance)).toBeGreaterThan(0.999 * laboratory);
          }
        },
      ),
      { numRuns: 60, seed: 4 },
    );
  });
});

describe("water that the wake brings from below", () => {
  it("the wake makes the cell read fresh against the bottle if it is saltier below, and salty if it is fresher", () => {
    // The bottle carries water from below on the upcast: bottle - CTD is positive where salinity falls toward the surface
    // [CruiseReports2022].
    for (const perDbar of [0.001, -0.001]) {
      const at = (pressure_dbar: number): Closure => ({
        pressure_dbar,
        temperature_C: 8,
        salinity: 35 + perDbar * pressure_dbar,
      });
      const pressures = [900, 800, 700, 600, 500, 400];
      const bottles = pressures.map((p, i): Bottle => {
        // At the deepest stop the package comes from above.
        const wake_dbar = i === 0 ? -2 : 2;
        return {
          cast: "001",
          bottle: String(i + 1),
          pressure_dbar: p,
          salinity: at(p + wake_dbar).salinity,
          ctd: { primary: reading(at(p), 0) },
        };
      });
      const { observations } = ofCast(bottles).evidence;
      expect(observations).toHaveLength(6);
      for (const [i, observation] of observations.entries()) {
        const { value } = observation;
        expect(Math.sign(value)).toBe(i === 0 ? Math.sign(perDbar) : -Math.sign(perDbar));
        expect((2 * sharedWeight(observation, "wake")) / value).toBeCloseTo(1, 1);
      }
    }
  });
});

describe("a CTD reading that its file calls questionable or bad", () => {
  const hy1 = (flag: number) => `BOTTLE,20310601XXINVENTED
STNNBR,CASTNO,SAMPNO,BTLNBR,DATE,TIME,LATITUDE,LONGITUDE,CTDPRS,CTDTMP,CTDSAL,CTDSAL_FLAG_W,SALNTY,SALNTY_FLAG_W
,,,,,,,,DBAR,ITS-90,PSS-78,,PSS-78,
1,1,1,1,20310504,0905,-31.5,12.25,3000,2.1,34.90,2,34.90,2
1,1,2,2,20310504,0905,-31.5,12.25,2000,3.1,34.85,${flag},34.90,2
END_DATA
`;

  it("a CTD reading flagged questionable or bad is no observation; flagged good it is one [CCHDO2022]", () => {
    const used = (flag: number) => {
      const { bottles } = readExchangeBottles(hy1(flag), { file: "hy1.csv" });
      const { observations, leftOut } = ofCast(bottles).evidence;
      return { used: observations.map(({ bottle }) => bottle), why: leftOut.map(({ why }) => why) };
    };
    expect(used(2)).toEqual({ used: ["1", "2"], why: [] });
    for (const flag of [3, 4, 5, 9]) {
      expect(used(flag)).toEqual({ used: ["1"], why: ["no CTD reading at closure"] });
    }
  });
});
