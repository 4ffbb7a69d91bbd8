import { existsSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { legsEvidence } from "../../../src/evidence/legs/legs.js";
import type { LineResult } from "../../../src/model/observation.js";
import { gainOf, gainTerms } from "../../../src/model/observation.js";
import { castOf, coastal, coastalCast, lowered } from "../../cast/castOf.js";
import { simulateLowering } from "../../cast/simulateLowering.js";
import { seeded } from "../seeded.js";
import { castThrough, simulateWater, type Water } from "../simulateWater.js";

const slow = 180_000;

function evidenceOf(water: Water): LineResult {
  const cast = simulateWater(water);
  return legsEvidence(cast, splitLegs(cast), "primary");
}

/** Mean of the layers, each weighted by 1 / its variance, and what the variances say of it, ppm. */
function meanOf({ observations }: LineResult) {
  let weight = 0;
  let sum = 0;
  for (const { value, variance } of observations) {
    weight += 1 / variance;
    sum += value / variance;
  }
  return { mean: sum / weight, standardUncertainty: 1 / Math.sqrt(weight) };
}

/** Over many casts without any film: squares of the mean, and of each layer, over their variances. */
function overManyCasts(water: Omit<Water, "seed">, casts: number) {
  let squares = 0;
  let beyond = 0;
  let chi = 0;
  let layers = 0;
  let onsets = 0;
  for (let seed = 0; seed < casts; seed++) {
    const evidence = evidenceOf({ ...water, seed });
    const { mean, standardUncertainty } = meanOf(evidence);
    const z = mean / standardUncertainty;
    squares += z * z;
    if (Math.abs(z) > 3) beyond++;
    for (const { value, variance } of evidence.observations) {
      chi += value ** 2 / variance;
      layers++;
    }
    if (evidence.onset !== undefined) onsets++;
  }
  return {
    meanSquare: squares / casts,
    beyondThree: beyond / casts,
    layerSquare: chi / layers,
    layersPerCast: layers / casts,
    onsets: onsets / casts,
  };
}

describe("sound casts with internal waves and spice that differs between the legs", () => {
  const casts = 200;
  test(
    "a weighted mean of the layers is as uncertain as their variances say, within 20 %",
    () => {
      const sound = overManyCasts({ deepest_dbar: 1500 }, casts);
      expect(sound.layersPerCast).toBeGreaterThan(5);
      expect(sound.layersPerCast).toBeLessThan(30);
      expect(sound.meanSquare).toBeGreaterThan(0.8);
      expect(sound.meanSquare).toBeLessThan(1.2);
      // The lag's amplitude is an error that the layers share; told as independent errors it makes each larger.
      expect(sound.layerSquare).toBeGreaterThan(0.35);
      expect(sound.layerSquare).toBeLessThan(1.1);
      expect(sound.onsets).toBeLessThanOrEqual(0.02);
    },
    slow,
  );

  test.each([
    { alpha: 0.05, tau_s: 9.5 },
    { alpha: 0.05, tau_s: 5 },
    { alpha: 0.05, tau_s: 15 },
    { alpha: 0.12, tau_s: 9.5 },
  ])(
    "thermal lag of alpha $alpha and tau $tau_s s, one to five times the usual, is not taken for a film",
    (lag) => {
      for (const deepest_dbar of [400, 1500]) {
        const lagged = overManyCasts({ deepest_dbar, lag }, casts / 2);
        // Casts to 400 dbar have few layers below the thermocline: one or two in a hundred lie beyond three.
        expect(lagged.beyondThree).toBeLessThanOrEqual(0.02);
        expect(lagged.meanSquare).toBeLessThan(1.3);
        expect(lagged.onsets).toBeLessThanOrEqual(0.02);
      }
    },
    slow,
  );

  test(
    "a few spikes change little",
    () => {
      const struck = overManyCasts({ deepest_dbar: 1500, spikes: 0.001 }, casts / 2);
      const sound = overManyCasts({ deepest_dbar: 1500 }, casts / 2);
      expect(struck.meanSquare).toBeLessThan(1.2 * sound.meanSquare);
      expect(struck.onsets).toBeLessThanOrEqual(0.02);
    },
    slow,
  );
});

describe.each([-100, -300])("a film of %s ppm that came within the cast", (ppm) => {
  test(
    "a film below the thermocline is placed within 20 dbar and on its leg",
    () => {
      const casts = 60;
      let placed = 0;
      let rightLeg = 0;
      for (let seed = 0; seed < casts; seed++) {
        const pressure_dbar = 500 + 800 * seeded(seed + 1000).uniform();
        const leg = seed % 2 === 0 ? "down" : "up";
        const { onset } = evidenceOf({
          deepest_dbar: 1500,
          seed,
          film: { ppm, pressure_dbar, leg },
        });
        if (onset === undefined) continue;
        if (Math.abs(onset.pressure_dbar - pressure_dbar) <= 20) placed++;
        if ((leg === "down") === onset.probabilityDown > 0.5) rightLeg++;
      }
      expect(placed / casts).toBeGreaterThan(ppm === -100 ? 0.9 : 0.97);
      expect(rightLeg / casts).toBeGreaterThan(ppm === -100 ? 0.9 : 0.97);
    },
    slow,
  );

  test("the layers above the onset read fresh by the size of the film, and those below agree", () => {
    for (const leg of ["down", "up"] as const) {
      const film = { ppm, pressure_dbar: 1200, leg };
      const evidence = evidenceOf({ deepest_dbar: 2500, seed: 8, film });
      const part = (own: (p: number) => boolean) =>
        meanOf({
          ...evidence,
          observations: evidence.observations.filter(({ pressure_dbar }) => own(pressure_dbar)),
        });
      const above = part((p) => p < 1200);
      const below = part((p) => p > 1200);
      expect(Math.abs(above.mean - ppm)).toBeLessThan(3 * above.standardUncertainty);
      expect(Math.abs(below.mean)).toBeLessThan(3 * below.standardUncertainty);
    }
  });
});

/**
 * Scatter between the legs is 60 to 150 ppm there and remembered over some 20 dbar; lag alone is ten times the step.
 * What is claimed must be in its place, whether much or little is claimed.
 */
describe.each([
  { ppm: -300, least: 0.5 },
  { ppm: -1000, least: 0.85 },
])("a film of $ppm ppm within the thermocline, with the usual lag", ({ ppm, least }) => {
  test(
    "the onset is often found, and then within 20 dbar, within its uncertainty and on the right leg",
    () => {
      const casts = 120;
      let claimed = 0;
      let placed = 0;
      let rightLeg = 0;
      let within = 0;
      for (let seed = 0; seed < casts; seed++) {
        const pressure_dbar = 40 + 260 * seeded(seed + 2000).uniform();
        const leg = seed % 2 === 0 ? "down" : "up";
        const { onset } = evidenceOf({
          deepest_dbar: 1500,
          seed,
          lag: { alpha: 0.0245, tau_s: 9.5 },
          film: { ppm, pressure_dbar, leg },
        });
        if (onset === undefined) continue;
        const off = Math.abs(onset.pressure_dbar - pressure_dbar);
        claimed++;
        if (off <= 20) placed++;
        if (off <= 2 * onset.standardUncertainty_dbar) within++;
        if ((leg === "down") === onset.probabilityDown > 0.5) rightLeg++;
      }
      expect(claimed / casts).toBeGreaterThan(least);
      expect(placed / claimed).toBeGreaterThan(0.95);
      expect(within / claimed).toBeGreaterThan(0.9);
      expect(rightLeg / claimed).toBeGreaterThan(0.85);
    },
    slow,
  );
});

test("a film of 3000 ppm is placed even in the thermocline", () => {
  let placed = 0;
  for (let seed = 0; seed < 20; seed++) {
    const film = { ppm: -3000, pressure_dbar: 140 + 8 * seed, leg: "up" } as const;
    const { onset } = evidenceOf({ deepest_dbar: 1500, seed, film });
    if (onset !== undefined && Math.abs(onset.pressure_dbar - film.pressure_dbar) <= 20) placed++;
  }
  expect(placed).toBeGreaterThanOrEqual(17);
});

test("scans at 24 Hz under heave, with soak, stops and lag, give the same onset as averages", () => {
  const lowering = simulateLowering({
    rate_Hz: 24,
    deepest_dbar: 1200,
    soak: { dbar: 10, seconds: 120, raised: true },
    stops: [1000, 600, 300, 100, 50],
    stop_s: 45,
    heave: { amplitude_m: 1.5, period_s: 8 },
    withTime: true,
    seed: 1,
  }).cast.columns;
  const pressure = lowering.pressure_dbar;
  const turn = pressure.indexOf(pressure.reduce((most, p) => Math.max(most, p)));
  for (const leg of ["down", "up"] as const) {
    const cast = castThrough(
      {
        deepest_dbar: 1200,
        seed: 5,
        lag: { alpha: 0.03, tau_s: 9.5 },
        film: { ppm: -300, pressure_dbar: 700, leg },
      },
      pressure,
      (i) => (i <= turn ? "down" : "up"),
      1 / 24,
      { temperature: 0.0005, conductivity: 0.0005 },
    );
    const { onset } = legsEvidence(cast, splitLegs(cast), "primary");
    expect(Math.abs(onset!.pressure_dbar - 700)).toBeLessThan(20);
    expect(onset!.probabilityDown > 0.5).toBe(leg === "down");
  }
});

test("a film older than the cast is on both legs and not seen", () => {
  const film = { ppm: -500, pressure_dbar: 0, leg: "down" } as const;
  const { mean, standardUncertainty } = meanOf(evidenceOf({ deepest_dbar: 1500, seed: 2, film }));
  expect(Math.abs(mean)).toBeLessThan(3 * standardUncertainty);
});

test("observations of the legs are up leg minus down leg", () => {
  const { observations } = evidenceOf({ deepest_dbar: 1000, seed: 1 });
  for (const observation of observations) {
    expect(observation.line).toBe("legs");
    expect(gainTerms(observation)).toEqual([
      gainOf("primary", "up"),
      gainOf("primary", "down", -1),
    ]);
  }
});

test("with an even temperature gradient over the whole cast, the variance covers both film and lag", () => {
  const random = seeded(6);
  const levels = Array.from({ length: 295 }, (_, i) => i + 6);
  const pressure = [...levels, ...levels.toReversed()];
  const cast = castOf(
    pressure,
    pressure.map((p) => 18 - 0.03 * p + 0.001 * random.normal()),
    pressure.map((p) => 47 - 0.03 * p + 0.001 * random.normal()),
  );
  const evidence = legsEvidence(cast, splitLegs(cast), "primary");
  expect(evidence.notes.join()).toContain("cannot be distinguished from thermal lag");
  // The usual lag: 0.0245 x 9.5 s x 0.03 K/s on either leg, at some 20 000 ppm per K, is 280 ppm.
  expect(meanOf(evidence).standardUncertainty).toBeGreaterThan(200);
});

test("one leg, a missing cell or too little common water give no comparison, with a note", () => {
  const down = lowered(Array.from({ length: 300 }, (_, i) => i + 6));
  const one = legsEvidence(down, splitLegs(down), "primary");
  expect(one.observations).toEqual([]);
  expect(one.notes.join()).toContain("one leg only");
  expect(legsEvidence(down, splitLegs(down), "secondary").notes.join()).toContain("no such cell");
  const short = lowered([4, 8, 12, 16, 12, 8, 4]);
  const few = legsEvidence(short, splitLegs(short), "primary");
  expect(few.observations.every(({ variance }) => variance > 0)).toBe(true);
  expect(few.onset).toBeUndefined();
});

test("random columns give positive variances and no error", () => {
  const reading = fc.oneof(
    fc.double({ min: -5, max: 60, noNaN: true }),
    fc.constantFrom(Number.NaN, 0, -9999, 1e30),
  );
  const scan = fc.tuple(fc.double({ min: 0, max: 500, noNaN: true }), reading, reading);
  fc.assert(
    fc.property(fc.array(scan, { maxLength: 120 }), fc.boolean(), (scans, inOrder) => {
      if (inOrder) scans.sort(([a], [b]) => a - b);
      const there = scans.concat(inOrder ? scans.toReversed() : []);
      const cast = castOf(
        there.map(([p]) => p),
        there.map(([, t]) => t),
        there.map(([, , c]) => c),
      );
      for (const { value, variance } of legsEvidence(cast, splitLegs(cast), "primary")
        .observations) {
        expect(Number.isFinite(value)).toBe(true);
        expect(variance).toBeGreaterThan(0);
        expect(Number.isFinite(variance)).toBe(true);
      }
    }),
    { seed: 9, numRuns: 300 },
  );
});

describe("readings that no sensor gives", () => {
  const sound = simulateWater({ deepest_dbar: 600, seed: 3 });
  /** The cast with a value in place of some readings of one column. */
  function withValue(value: number, column: "temperature_C" | "conductivity_mS_cm", every: number) {
    const { primary } = sound.columns;
    const own = primary[column].map((read, i) => (i % every === every - 1 ? value : read));
    return { ...sound, columns: { ...sound.columns, primary: { ...primary, [column]: own } } };
  }
  const values = [1e20, -1e20, 9.97e36, -9.99e-29, 0, -0.001, -99, -9999, Number.POSITIVE_INFINITY];

  test.each(values)(
    "a value of %s in one scan changes the legs as a missing scan does",
    (value) => {
      for (const column of ["temperature_C", "conductivity_mS_cm"] as const) {
        if (column === "temperature_C" && Math.abs(value) < 1) continue;
        const [filled, missing] = [value, Number.NaN].map((own) => {
          const cast = withValue(own, column, 400);
          return legsEvidence(cast, splitLegs(cast), "primary");
        });
        expect(filled!.observations.length).toBeGreaterThan(3);
        expect(filled!.observations).toEqual(missing!.observations);
      }
    },
  );

  test.each([2, 3, 5, 7])("every %s-th scan at -99 leaves no legs", (every) => {
    for (const column of ["temperature_C", "conductivity_mS_cm"] as const) {
      const cast = withValue(-99, column, every);
      const { observations } = legsEvidence(cast, splitLegs(cast), "primary");
      for (const { value, variance } of observations) {
        expect(Number.isFinite(value)).toBe(true);
        expect(variance).toBeGreaterThan(0);
      }
    }
  });

  test("a column of fill values leaves nothing to compare", () => {
    const cast = withValue(-9.99, "conductivity_mS_cm", 1);
    expect(legsEvidence(cast, splitLegs(cast), "primary").observations).toEqual([]);
  });
});

test.skipIf(!existsSync(coastal.folder)).each(coastal.stations)(
  "the shallow cast of station %s does not claim to tell a film from its thermocline (open data; skipped where absent)",
  (name) => {
    const cast = coastalCast(name);
    const evidence = legsEvidence(cast, splitLegs(cast), "primary");
    expect(evidence.observations.length).toBeGreaterThan(0);
    for (const { value, variance } of evidence.observations) {
      // 2000 ppm is 0.08 in salinity: more than two legs through 10 m of stirred water differ.
      expect(Math.abs(value)).toBeLessThan(2000);
      expect(variance).toBeGreaterThan(100 ** 2);
    }
    const { mean, standardUncertainty } = meanOf(evidence);
    expect(Math.abs(mean)).toBeLessThan(5 * standardUncertainty);
    expect(evidence.onset).toBeUndefined();
  },
);
