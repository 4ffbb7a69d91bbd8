// Recovery of what was put into simulated casts (docs/simulation.md); nothing here is real but the last.
import { existsSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { compareLegs, compareLegsAt } from "../../../src/evidence/legs/compareLegs.js";
import { legsEvidence } from "../../../src/evidence/legs/legs.js";
import { cellsOnPath } from "../../../src/evidence/path/cellsOnPath.js";
import { excursionsOnCast } from "../../../src/evidence/path/excursionsOnCast.js";
import { pairOnset } from "../../../src/evidence/path/pairOnset.js";
import { shareLeft } from "../../../src/model/placesOnCast.js";
import { type Scenario, simulateCruise } from "../../../src/simulate/index.js";
import { castOf, coastal, coastalCast } from "../../cast/castOf.js";
import { seeded } from "../seeded.js";

const slow = 180_000;

type OneCast = Omit<Scenario, "casts">;

function castOfScenario(scenario: OneCast) {
  const cast = simulateCruise({ ...scenario, casts: 1 }).cruise.casts[0]!.data!;
  return { cast, legs: splitLegs(cast) };
}

function cellsOf(scenario: OneCast) {
  const { cast, legs } = castOfScenario(scenario);
  return cellsOnPath(cast, legs);
}

/** A place between two pressures, on the legs in turn. */
function placeFor(seed: number, from: number, to: number) {
  const pressure_dbar = from + (to - from) * seeded(seed + 7000).uniform();
  return { leg: seed % 2 === 0 ? "down" : "up", pressure_dbar } as const;
}

const samplings = [
  { name: "averages of 10 dbar", sampling: { kind: "averages", layer_dbar: 10 }, casts: 24 },
  { name: "averages of 2 dbar", sampling: { kind: "averages", layer_dbar: 2 }, casts: 20 },
  { name: "2 Hz", sampling: { kind: "time-series", rate_Hz: 2 }, casts: 12 },
  { name: "24 Hz", sampling: { kind: "time-series", rate_Hz: 24 }, casts: 4 },
] as const;

describe.each(samplings)("two cells, $name", ({ sampling, casts }) => {
  const coarse = sampling.kind === "averages" && sampling.layer_dbar === 10;
  test.each([-100, -300])(
    "excursions of %s ppm that fade over 100 to 400 dbar, if found, have the right place, leg and size",
    (ppm) => {
      let found = 0;
      let placed = 0;
      let sized = 0;
      let faded = 0;
      for (let seed = 0; seed < casts; seed++) {
        const at = placeFor(seed, 100, 1700);
        const recovery_dbar = 100 * 4 ** seeded(seed + 8000).uniform();
        const [primary, secondary] = excursionsOnCast(
          cellsOf({
            seed,
            sampling,
            events: [{ kind: "transient", cells: ["primary"], cast: 1, at, ppm, recovery_dbar }],
          }),
        );
        expect(secondary!.probability).toBeLessThan(0.01);
        if (primary!.probability < 0.95) continue;
        found++;
        const { leg, onset_dbar } = primary!;
        if (leg === at.leg && Math.abs(onset_dbar.value - at.pressure_dbar) <= 20) placed++;
        const within = (
          { value, standardUncertainty }: { value: number; standardUncertainty: number },
          truth: number,
        ) => Math.abs(value - truth) <= 2 * standardUncertainty;
        if (within(primary!.ppm, ppm)) sized++;
        if (within(primary!.recovery_dbar, recovery_dbar)) faded++;
      }
      // Averages of 10 dbar hold few readings of what passes in 100 dbar, and those are noisy.
      expect(found / casts).toBeGreaterThanOrEqual(coarse ? 0.5 : 0.95);
      expect(placed / found).toBeGreaterThanOrEqual(0.95);
      // One in twenty lies beyond two standard uncertainties by itself, one more beside in few casts.
      expect(sized).toBeGreaterThanOrEqual(Math.floor(0.9 * found) - 1);
      expect(faded).toBeGreaterThanOrEqual(Math.floor(0.9 * found) - 1);
    },
    slow,
  );

  test.each([
    { where: "in the thermocline", from: 30, to: 300 },
    { where: "below it", from: 400, to: 1800 },
  ])(
    "a step of -100 ppm $where is placed within 20 dbar on its leg, and not taken for an excursion",
    ({ from, to }) => {
      let placed = 0;
      for (let seed = 0; seed < casts; seed++) {
        const at = placeFor(seed, from, to);
        const cells = cellsOf({
          seed,
          sampling,
          events: [{ kind: "film-step", cells: ["primary"], cast: 1, at, ppm: -100 }],
        });
        const onset = pairOnset("primary", cells.primary!, cells.secondary!);
        expect(pairOnset("secondary", cells.secondary!, cells.primary!)).toBeUndefined();
        for (const { probability } of excursionsOnCast(cells)) {
          expect(probability).toBeLessThan(0.5);
        }
        if (onset === undefined) continue;
        const right = onset.probabilityDown > 0.5 === (at.leg === "down");
        if (right && Math.abs(onset.pressure_dbar - at.pressure_dbar) <= 20) placed++;
      }
      expect(placed / casts).toBeGreaterThanOrEqual(coarse && to === 300 ? 0.85 : 0.95);
    },
    slow,
  );

  test.each([
    { what: "sound casts", events: [] },
    { what: "a front between the legs", events: [{ kind: "front", cast: 1, salinity: 0.1 }] },
    {
      what: "twice the lag on one cell",
      events: [{ kind: "thermal-lag", cells: ["primary"], cast: 1, factor: 2 }],
    },
    {
      what: "little flow through one cell",
      events: [{ kind: "flow-loss", cells: ["primary"], cast: 1, flow: 0.3 }],
    },
  ] as const)(
    "$what: neither an excursion nor a step is claimed",
    ({ events }) => {
      for (let seed = 0; seed < casts; seed++) {
        const cells = cellsOf({ seed, sampling, events });
        for (const { probability } of excursionsOnCast(cells)) {
          expect(probability).toBeLessThan(0.5);
        }
        expect(pairOnset("primary", cells.primary!, cells.secondary!)).toBeUndefined();
        expect(pairOnset("secondary", cells.secondary!, cells.primary!)).toBeUndefined();
      }
    },
    slow,
  );
});

describe("one cell, averages of 2 dbar", () => {
  const one = { cells: ["primary"], sampling: { kind: "averages", layer_dbar: 2 } } as const;
  const casts = 30;
  test.each([
    { what: "sound casts", events: [], most: 0 },
    {
      what: "twice the lag",
      events: [{ kind: "thermal-lag", cells: ["primary"], cast: 1, factor: 2 }],
      most: 0,
    },
    // One cell alone cannot always tell a front from a film.
    { what: "a front", events: [{ kind: "front", cast: 1, salinity: -0.1 }], most: 0.1 },
    { what: "a front", events: [{ kind: "front", cast: 1, salinity: 0.1 }], most: 0.1 },
  ] as const)(
    "$what: excursions are claimed on at most $most of the casts",
    ({ events, most }) => {
      let claimed = 0;
      for (let seed = 0; seed < casts; seed++) {
        const [primary] = excursionsOnCast(cellsOf({ ...one, seed, events }));
        if (primary!.probability > 0.5) claimed++;
      }
      expect(claimed / casts).toBeLessThanOrEqual(most);
    },
    slow,
  );

  test(
    "of excursions in calm water, most are found and those found are of the right leg and size",
    () => {
      let found = 0;
      for (let seed = 0; seed < casts; seed++) {
        const at = placeFor(seed, 900, 1600);
        const event = { kind: "transient", cells: ["primary"], cast: 1, at, ppm: -300 } as const;
        const [primary] = excursionsOnCast(
          cellsOf({ ...one, seed, events: [{ ...event, recovery_dbar: 250 }] }),
        );
        if (primary!.probability < 0.95) continue;
        found++;
        expect(primary!.leg).toBe(at.leg);
        expect(Math.abs(primary!.ppm.value + 300)).toBeLessThan(
          4 * primary!.ppm.standardUncertainty,
        );
      }
      expect(found / casts).toBeGreaterThan(0.5);
    },
    slow,
  );
});

test("the legs' evidence takes the place that the pair gives, and no layer goes across it", () => {
  const at = { leg: "up", pressure_dbar: 140 } as const;
  const { cast, legs } = castOfScenario({
    seed: 4,
    sampling: { kind: "averages", layer_dbar: 2 },
    events: [{ kind: "film-step", cells: ["primary"], cast: 1, at, ppm: -200 }],
  });
  const compared = compareLegs(cast, legs, "primary");
  const cells = cellsOnPath(cast, legs, { primary: compared });
  const placed = pairOnset("primary", cells.primary!, cells.secondary!);
  expect(Math.abs(placed!.pressure_dbar - 140)).toBeLessThan(5);
  expect(Math.abs(placed!.ppm + 200)).toBeLessThan(4 * placed!.standardUncertainty_ppm);
  const evidence = legsEvidence(
    cast,
    legs,
    "primary",
    compareLegsAt(cast, legs, "primary", compared, placed!),
  );
  expect(evidence.onset!.pressure_dbar).toBe(placed!.pressure_dbar);
  expect(evidence.onset!.probabilityDown).toBeLessThan(0.5);
  expect(evidence.observations.length).toBeGreaterThan(5);
});

test("an excursion of the secondary cell is the secondary's", () => {
  const at = { leg: "up", pressure_dbar: 900 } as const;
  const event = { kind: "transient", cells: ["secondary"], cast: 1, at, ppm: -300 } as const;
  const sampling = { kind: "averages", layer_dbar: 2 } as const;
  const [primary, secondary] = excursionsOnCast(
    cellsOf({ seed: 6, sampling, events: [{ ...event, recovery_dbar: 150 }] }),
  );
  expect(primary!.probability).toBeLessThan(0.01);
  expect(secondary!.probability).toBeGreaterThan(0.99);
  expect(secondary!.leg).toBe("up");
});

test("a sound cast of one leg has no excursions, and one cell has nothing to compare", () => {
  for (const leg of ["up", "down"] as const) {
    const { cast, legs } = castOfScenario({ seed: 1 });
    const single = { ...legs, [leg]: new Uint32Array(0) };
    expect(excursionsOnCast(cellsOnPath(cast, single), 0.01)).toEqual([]);
    const { secondary: _, ...columns } = cast.columns;
    expect(cellsOnPath({ ...cast, columns }, single)).toEqual({});
  }
  expect(excursionsOnCast({})).toEqual([]);
});

test("no columns, however odd, break the search, and a probability is one", () => {
  const reading = fc.oneof(
    fc.double({ min: -5, max: 60, noNaN: true }),
    fc.constantFrom(Number.NaN, 0, -9999, 1e30),
  );
  const scan = fc.tuple(
    fc.double({ min: -50, max: 500, noNaN: true }),
    reading,
    reading,
    reading,
    reading,
  );
  fc.assert(
    fc.property(fc.array(scan, { maxLength: 80 }), fc.boolean(), (scans, inOrder) => {
      if (inOrder) scans.sort(([a], [b]) => a - b);
      const there = scans.concat(inOrder ? scans.toReversed() : []);
      const column = (j: 0 | 1 | 2 | 3 | 4) => Float64Array.from(there, (row) => row[j]);
      const alone = castOf(column(0), column(1), column(2));
      const secondary = { temperature_C: column(3), conductivity_mS_cm: column(4) };
      const cast = { ...alone, columns: { ...alone.columns, secondary } };
      for (const { probability } of excursionsOnCast(cellsOnPath(cast, splitLegs(cast)))) {
        expect(probability).toBeGreaterThanOrEqual(0);
        expect(probability).toBeLessThanOrEqual(1);
      }
    }),
    { seed: 11, numRuns: 200 },
  );
});

test("the share that is left is none before it came, all as it came, 1/e after each recovery", () => {
  const known = {
    leg: "down" as const,
    onset_dbar: 700,
    recovery_dbar: 100,
    deepest_dbar: 1000,
  };
  expect(shareLeft(known, "down", 699)).toBe(0);
  expect(shareLeft(known, "down", 700)).toBe(1);
  expect(shareLeft(known, "down", 800)).toBeCloseTo(Math.exp(-1), 12);
  // 300 dbar to the turn and 100 up again.
  expect(shareLeft(known, "up", 900)).toBeCloseTo(Math.exp(-4), 12);
});

test.skipIf(!existsSync(coastal.folder)).each(coastal.stations)(
  "no excursion is claimed in the shallow cast of station %s (open data; skipped where absent)",
  (name) => {
    const cast = coastalCast(name);
    for (const { probability } of excursionsOnCast(cellsOnPath(cast, splitLegs(cast)))) {
      expect(probability).toBeLessThan(0.5);
    }
  },
);
