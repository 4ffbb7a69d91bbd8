import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Bottle } from "../../../src/cast/bottle.js";
import {
  bottleNoise,
  type Departure,
  usualBottleNoise,
} from "../../../src/evidence/bottles/bottleNoise.js";
import { bottlesEvidence } from "../../../src/evidence/bottles/bottles.js";
import type { LineResult } from "../../../src/model/observation.js";
import { gainOf, gainTerms } from "../../../src/model/observation.js";
import { seeded } from "../seeded.js";
import { bottlesAt, type Closure, calm, castThrough, closureSalinity, column } from "./closures.js";

const evidenceOf = (bottles: readonly Bottle[]) =>
  bottlesEvidence("001", bottles, ["primary"], undefined, usualBottleNoise).evidence;
const meanOf = ({ observations }: LineResult) => {
  const weight = observations.reduce((sum, o) => sum + 1 / o.variance, 0);
  return observations.reduce((sum, o) => sum + o.value / o.variance, 0) / weight;
};
/** 0.001 in salinity, the standard deviation of a calm deep bottle, in calm(), ppm. */
const calmSd = Math.sqrt(evidenceOf(bottlesAt(calm(2), { primary: 0 })).observations[0]!.variance);
const ppmToSalinity = 0.001 / calmSd;

describe("a bottle compared with a cell", () => {
  it("a cell that reads 1e-4 low has a bottle residual of -100 ppm: -0.0039 in salinity at SP 35, -0.00075 at SP 7", () => {
    // PSS-78: C x dSP/dC x 1e-4 from the reference implementation GSW-C, e.g. 42.9175 x 0.9124 at SP 35, 15 degC.
    const waters: readonly (readonly [Closure, number, number])[] = [
      [{ salinity: 35, temperature_C: 25, pressure_dbar: 5 }, 53.0732, 0.742],
      [{ salinity: 35, temperature_C: 15, pressure_dbar: 0 }, 42.9175, 0.9124],
      [{ salinity: 34.9, temperature_C: 4, pressure_dbar: 1000 }, 32.9166, 1.1792],
      [{ salinity: 34.7, temperature_C: 1.5, pressure_dbar: 4000 }, 31.715, 1.2239],
      [{ salinity: 7, temperature_C: 8, pressure_dbar: 20 }, 8.2704, 0.9097],
    ];
    for (const [water, conductivity, perConductivity] of waters) {
      const [bottle] = bottlesAt([water], { primary: -100 });
      const [observation] = evidenceOf([bottle!]).observations;
      expect(observation!.value).toBeCloseTo(-100, 1);
      expect(gainTerms(observation!)).toEqual([gainOf("primary", "up")]);
      const salinity = closureSalinity(bottle!, "primary") - water.salinity;
      expect(Math.abs(salinity + conductivity * perConductivity * 1e-4)).toBeLessThan(1e-6);
      expect(Math.abs(salinity + (water.salinity > 30 ? 0.0039 : 0.00075))).toBeLessThan(7e-5);
    }
  });

  it("a bottle in calm deep water has an error of 0.001 in salinity, half of the 51 ppm of 0.002", () => {
    // 0.002 in salinity asks for conductivity to 5.1e-5: PSS-78, as above.
    expect(Math.abs(calmSd - 51 / 2)).toBeLessThan(0.5);
  });

  it("one bottle changes the mean of twelve by a twelfth of its change, and an outlier hardly at all", () => {
    const estimate = (moved_ppm: number) => {
      const closures = calm(12).map((closure, i) =>
        i === 6 ? { ...closure, laboratory: -moved_ppm * ppmToSalinity } : closure,
      );
      return meanOf(evidenceOf(bottlesAt(closures, { primary: -40 })));
    };
    const still = estimate(0);
    expect(still).toBeCloseTo(-40, 1);
    expect(estimate(12) - still).toBeCloseTo(1, 2);
    expect(estimate(-12) - still).toBeCloseTo(-1, 2);
    fc.assert(
      fc.property(fc.double({ min: -1e5, max: 1e5, noNaN: true }), (moved) => {
        // Four standard deviations of 25 ppm, a twelfth of it, is the most that one bottle can do.
        expect(Math.abs(estimate(moved) - still)).toBeLessThan((4.2 * calmSd) / 12);
      }),
      { numRuns: 200, seed: 1 },
    );
    expect(Math.abs(estimate(5000) - still)).toBeLessThan(0.01);
  });

  it("only the leaking or mis-tripped bottle is excluded, by name, for any size of its error", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 11 }),
        fc.double({ min: 7, max: 4000, noNaN: true }),
        fc.boolean(),
        fc.integer({ min: 1, max: 1e6 }),
        fc.constantFrom(calm(12), calm(12, 10, 400)),
        (bad, size, salty, seed, closures) => {
          // Errors within one standard deviation, so that none of the sound ones is a stray by chance.
          const { uniform } = seeded(seed);
          const noisy = closures.map((closure, i) => ({
            ...closure,
            laboratory: i === bad ? (salty ? 1 : -1) * size * 0.001 : 0.001 * (2 * uniform() - 1),
          }));
          const { leftOut, observations } = evidenceOf(bottlesAt(noisy, { primary: 30 }));
          expect(leftOut.map(({ what }) => what)).toEqual([
            `bottle ${bad + 1} at ${closures[bad]!.pressure_dbar.toFixed(0)} dbar`,
          ]);
          expect(leftOut[0]!.why).toMatch(/leaked, tripped elsewhere or is mislabelled/);
          expect(observations).toHaveLength(11);
        },
      ),
      { numRuns: 200, seed: 2 },
    );
  });

  it("a bottle that closed at the depth of another in the thermocline is excluded", () => {
    const pressures = [4000, 3000, 2500, 2000, 1600, 1300, 1000, 800, 600, 400, 200, 50];
    const bottles = bottlesAt(pressures.map(column), { primary: 0 }).map((bottle, i) =>
      i === 2 ? { ...bottle, salinity: column(600).salinity } : bottle,
    );
    expect(evidenceOf(bottles).leftOut.map(({ what }) => what)).toEqual(["bottle 3 at 2500 dbar"]);
  });

  it("three of twelve with equal leaks do not bias the cast, but bias a mean with 2.8-sigma rejection", () => {
    const closures = calm(12).map((closure, i) =>
      [2, 5, 9].includes(i) ? { ...closure, laboratory: 0.02 } : closure,
    );
    const evidence = evidenceOf(bottlesAt(closures, { primary: 0 }));
    expect(evidence.leftOut.map(({ what }) => what.split(" ")[1])).toEqual(["3", "6", "10"]);
    expect(meanOf(evidence)).toBeCloseTo(0, 6);
    // The usual rule rejects none of them: each lies 1.66 of the standard deviations that they make themselves.
    const [mean, sd] = [-0.02 * (3 / 12), Math.sqrt((0.02 ** 2 * (3 * 9)) / 144)];
    expect(Math.abs(-0.02 - mean) / sd).toBeLessThan(2.8);
  });

  it("an error that grows with pressure, as published fits have it, is no leak", () => {
    // Terms of up to 2.7e-6 mS/cm per dbar are 80 ppm per 1000 dbar [CruiseReports2021].
    const closures = calm(12, 100, 5000);
    const bottles = closures.flatMap((closure, i) =>
      bottlesAt([closure], { primary: (-80 * closure.pressure_dbar) / 1000 }).map((bottle) => ({
        ...bottle,
        bottle: String(i + 1),
      })),
    );
    const { observations, leftOut } = evidenceOf(bottles);
    expect(leftOut).toEqual([]);
    for (const { value, pressure_dbar } of observations) {
      expect(Math.abs(value + 0.08 * pressure_dbar)).toBeLessThan(0.1);
    }
  });

  it("WOCE flags 3 and 4 of the sample and of the bottle are honoured; 2 and 6 count", () => {
    const plain = bottlesAt(calm(8), { primary: 0 });
    const flags: readonly Partial<Bottle>[] = [
      { flag: 3 },
      { flag: 4 },
      { bottleFlag: 3 },
      { bottleFlag: 4 },
      { flag: 2 },
      { flag: 6 },
      { bottleFlag: 2 },
      {},
    ];
    const { observations, leftOut } = evidenceOf(
      plain.map((bottle, i) => ({ ...bottle, ...flags[i] })),
    );
    expect(observations.map(({ bottle }) => bottle)).toEqual(["5", "6", "7", "8"]);
    expect(leftOut.map(({ why }) => why)).toEqual([
      "laboratory salinity flagged questionable in the file",
      "laboratory salinity flagged bad in the file",
      "bottle flagged leaking in the file",
      "bottle flagged as not tripped correctly in the file",
    ]);
  });

  it("two bottles have no majority: both count, unless the water is clearly different", () => {
    const two = calm(2).map((closure, i) => ({ ...closure, laboratory: 0.03 * i }));
    const { observations, leftOut } = evidenceOf(bottlesAt(two, { primary: 0 }));
    expect(leftOut).toEqual([]);
    expect(observations.map(({ variance }) => Math.sqrt(variance) / calmSd)).toEqual([
      expect.closeTo(1, 1),
      expect.closeTo(1, 1),
    ]);
    const other = bottlesAt([calm(2)[0]!, { ...calm(2)[1]!, laboratory: 3 }], { primary: 0 });
    expect(evidenceOf(other).leftOut.map(({ what }) => what)).toEqual(["bottle 2 at 4000 dbar"]);
  });

  it("one outlier of three bottles is excluded although the other two have different errors", () => {
    // Salinity that changes with depth by 0.00025 a metre makes the errors of the upper two a fifth larger.
    const salinities = [34.7, 34.7, 34.8];
    const closures = [3000, 2600, 2200].map((pressure_dbar, i) => ({
      pressure_dbar,
      temperature_C: 2,
      salinity: salinities[i]!,
      ...(i === 1 ? { laboratory: 0.02 } : {}),
    }));
    const { observations, leftOut } = evidenceOf(bottlesAt(closures, { primary: -60 }));
    expect(leftOut.map(({ what }) => what)).toEqual(["bottle 2 at 2600 dbar"]);
    for (const { value } of observations) expect(value).toBeCloseTo(-60, 1);
  });

  it("each bottle is used once, against the first cell with a reading at closure", () => {
    const [one, two] = bottlesAt(calm(2), { primary: -50, secondary: 70 });
    const { secondary } = two!.ctd!;
    const second: Bottle = { ...two!, ctd: { ...(secondary === undefined ? {} : { secondary }) } };
    const { evidence } = bottlesEvidence(
      "001",
      [one!, second],
      ["primary", "secondary"],
      undefined,
      usualBottleNoise,
    );
    expect(evidence.observations.map((one) => gainTerms(one)[0]!.gain.cell)).toEqual([
      "primary",
      "secondary",
    ]);
    expect(evidence.observations.map(({ value }) => Math.round(value))).toEqual([-50, 70]);
  });

  it("a bottle without CTD readings is compared with the scans of the up leg", () => {
    const cast = castThrough(1500, { down: { primary: 0 }, up: { primary: -200 } });
    const bottles = [1400, 1200, 1000, 700, 500, 300].map((p, i): Bottle => {
      const { pressure_dbar, salinity } = column(p);
      return { cast: "001", bottle: String(i + 1), pressure_dbar, salinity };
    });
    const { evidence } = bottlesEvidence("001", bottles, ["primary"], cast, usualBottleNoise);
    expect(evidence.observations).toHaveLength(6);
    for (const { value } of evidence.observations) {
      expect(Math.abs(value + 200)).toBeLessThan(1);
    }
  });

  it("a bottle in a salinity gradient has less weight, by a mismatch of some metres", () => {
    const sdAt = (p: number) => {
      const bottles = bottlesAt([p, p + 50, p + 100].map(column), { primary: 0 });
      return Math.sqrt(evidenceOf(bottles).observations[0]!.variance);
    };
    // dS/dp there is 1.3 / 400 e^(-p / 400) per dbar; 2.5 dbar of it beside 0.001.
    expect(sdAt(100) / sdAt(5000)).toBeGreaterThan(5);
    expect(sdAt(100)).toBeLessThan(12 * sdAt(5000));
  });
});

describe("bottles of a cruise", () => {
  it("the estimated laboratory noise approaches the true one as bottles are added, with or without leaks", () => {
    for (const [truth, leaks] of [
      [1, 0],
      [1, 0.05],
      [2.2, 0.05],
    ] as const) {
      const { normal, uniform } = seeded(40);
      const departures: Departure[] = [];
      const errors: number[] = [];
      for (let cast = 1; cast <= 60; cast++) {
        const closures = calm(10).map((closure) => ({
          ...closure,
          laboratory: uniform() < leaks ? -0.05 : 0.001 * truth * normal(),
        }));
        const noise = bottleNoise(departures);
        const bottles = bottlesAt(closures, { primary: -30 });
        departures.push(
          ...bottlesEvidence("001", bottles, ["primary"], undefined, noise).departures,
        );
        if ([2, 20, 60].includes(cast)) {
          errors.push(Math.abs(bottleNoise(departures).laboratory / truth - 1));
        }
      }
      expect(errors.at(-1)).toBeLessThan(0.1);
      expect(errors.at(-1)).toBeLessThan(errors[0]! + 0.03);
    }
  });
});

describe("missing or incomplete bottles", () => {
  it("a cast without bottles has no bottle observation", () => {
    expect(evidenceOf([])).toMatchObject({ observations: [], leftOut: [], notes: [] });
  });

  it("bottles without a laboratory salinity are counted in a note", () => {
    const [one, two] = bottlesAt(calm(2), { primary: 0 });
    const { observations, leftOut, notes } = evidenceOf([{ ...one!, salinity: Number.NaN }, two!]);
    expect(observations).toHaveLength(1);
    expect(leftOut).toEqual([]);
    expect(notes).toEqual(["1 of 2 bottles have no laboratory salinity"]);
  });

  it("bottles without a possible CTD reading are excluded by name and do not affect the others", () => {
    const good = bottlesAt(calm(6), { primary: -10 });
    const odd = (bottle: string, more: Partial<Bottle>): Bottle => ({
      ...good[0]!,
      bottle,
      ...more,
    });
    const withReading = (temperature_C: number, conductivity_mS_cm: number) => ({
      ctd: { primary: { temperature_C, conductivity_mS_cm } },
    });
    const bad = [
      odd("a", { ctd: {} }),
      odd("b", withReading(Number.NaN, 32)),
      odd("c", withReading(2, Number.NaN)),
      odd("d", withReading(2, 0)),
      odd("e", withReading(2, -5)),
      odd("f", withReading(2, Number.POSITIVE_INFINITY)),
      odd("g", { salinity: -3 }),
      odd("h", { pressure_dbar: Number.NaN }),
      odd("i", withReading(2, 1e-9)),
      odd("j", withReading(2, 1e6)),
      odd("k", withReading(400, 30)),
      odd("l", { salinity: Number.POSITIVE_INFINITY }),
      odd("m", { salinity: 0 }),
    ];
    const { observations, leftOut, notes } = evidenceOf([...bad, ...good]);
    expect(observations.map(({ bottle }) => bottle)).toEqual(good.map(({ bottle }) => bottle));
    for (const { value, variance } of observations) {
      expect(value).toBeCloseTo(-10, 2);
      expect(variance).toBeGreaterThan(0);
      expect(variance).toBeLessThan(1e6);
    }
    const named = leftOut.map(({ what }) => what.split(" ")[1]);
    // An infinite salinity is none.
    expect(named.toSorted()).toEqual([..."abcdefghijkm"]);
    expect(notes).toEqual(["1 of 19 bottles have no laboratory salinity"]);
  });
});
