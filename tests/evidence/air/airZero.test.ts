import { existsSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Cast } from "../../../src/cast/cast.js";
import type { MaintenanceEvent } from "../../../src/cast/maintenance.js";
import { airScans } from "../../../src/evidence/air/airScans.js";
import { airZeroEvidence } from "../../../src/evidence/air/airZero.js";
import { simulateCruise } from "../../../src/simulate/cruise.js";
import type { SimulatedEvent } from "../../../src/simulate/events.js";
import type { TimeSeries } from "../../../src/simulate/scenario.js";
import { castOf, coastal, coastalCast } from "../../cast/castOf.js";
import { seeded } from "../seeded.js";

const written = (
  reading_uS_cm: number,
  more: Partial<MaintenanceEvent> = {},
): MaintenanceEvent => ({
  action: "air-reading",
  afterCast: "001",
  cell: "primary",
  reading_mS_cm: reading_uS_cm / 1000,
  ...more,
});
const record = (...after: MaintenanceEvent[]) =>
  airZeroEvidence("001", "primary", undefined, { before: [], after });
const sd = ({ observations }: ReturnType<typeof record>) =>
  observations.map(({ variance }) => Math.sqrt(variance));
const clean = { rinsed: true, drained: true };

describe("a reading in air that was written down", () => {
  it("a recorded reading in air is an offset of its cell in uS/cm, not a gain", () => {
    const { observations } = record(written(7, clean));
    expect(observations).toHaveLength(1);
    expect(observations[0]).toMatchObject({
      line: "air-zero",
      design: [{ slot: { cell: "primary", slot: "offset" }, weight: 1 }],
    });
    expect(observations[0]!.value).toBeCloseTo(7, 9);
  });

  it("a recorded reading in air is precise only in a rinsed and drained cell; residual water only adds", () => {
    const [both] = sd(record(written(7, clean)));
    const [one] = sd(record(written(7, { rinsed: true })));
    const [none] = sd(record(written(7)));
    expect(both).toBeLessThan(7 / 2.5);
    expect(one).toBeGreaterThan(7);
    expect(none).toBeGreaterThan(7);
    const sdsOf = (reading: number) =>
      [clean, { rinsed: true }, {}].map((how) => sd(record(written(reading, how)))[0]!);
    // Drained alone, a layer of sea water stays.
    expect(sd(record(written(0, { drained: true })))).toEqual(sd(record(written(0))));
    // Nothing of a reading below zero is water, but some may hide a lower one.
    for (const low of [0, -7]) {
      const [best, rinsed, neither] = sdsOf(low);
      expect(best).toBeLessThan(1);
      expect(rinsed).toBeGreaterThan(1.5 * best!);
      expect(rinsed).toBeLessThan(2);
      expect(neither).toBeGreaterThan(4 * rinsed!);
    }
  });

  it("a recorded reading in air counts as rinsed if a rinse of the cell is recorded before it, not after it", () => {
    const rinse: MaintenanceEvent = { action: "rinse", afterCast: "001" };
    expect(sd(record(rinse, written(0)))).toEqual(sd(record(written(0, { rinsed: true }))));
    expect(sd(record(written(0), rinse))).toEqual(sd(record(written(0))));
    expect(sd(record({ ...rinse, cell: "secondary" }, written(0)))).toEqual(sd(record(written(0))));
    expect(sd(record({ ...rinse, rinsed: false }, written(0)))).toEqual(sd(record(written(0))));
  });

  it("the higher of two readings in air of one cast is attributed to water by the whole difference", () => {
    const both = record(written(20, clean), written(0.5, clean));
    const [high, low] = sd(both);
    expect(high).toBeGreaterThan(19.5);
    expect(low).toBeLessThan(1);
    expect(both.notes.join()).toMatch(/20.0 uS.cm, 19.5 uS.cm above the lowest/);
  });

  it("a reading in air of the other cell is not used, and one without a cell is excluded", () => {
    expect(record(written(7, { cell: "secondary" })).observations).toEqual([]);
    const { cell: _, ...ofNone } = written(7);
    const { observations, leftOut } = record(ofNone);
    expect(observations).toEqual([]);
    expect(leftOut[0]!.why).toMatch(/which cell/);
  });

  it("without a reading in air there is no line, with a note", () => {
    expect(record()).toMatchObject({ observations: [], leftOut: [], notes: ["no reading in air"] });
  });
});

describe("readings written down cast by cast", () => {
  /** What the model would make of the readings of a cruise of eight casts. */
  const overCruise = (seed: number, offset: number, how: { rinsed: boolean; drained: boolean }) => {
    const { cruise } = simulateCruise({
      seed,
      casts: 8,
      cells: ["primary"],
      deepest_dbar: 100,
      events: [
        { kind: "additive-offset", cell: "primary", fromCast: 1, microsiemens_cm: offset },
        ...Array.from(
          { length: 8 },
          (_, i): SimulatedEvent => ({
            kind: "air-reading",
            afterCast: i + 1,
            cell: "primary",
            water_microsiemens_cm: how.drained ? 0.1 : 12,
            ...how,
          }),
        ),
      ],
    });
    const lines = cruise.casts.map(({ id, data }, i) =>
      airZeroEvidence(id, "primary", data, {
        before: cruise.maintenance.slice(0, i),
        after: cruise.maintenance.slice(i, i + 1),
      }),
    );
    expect(observationsOf(lines)).toHaveLength(8);
    return cruiseError(lines, 0);
  };

  it("readings of a rinsed and drained cell show an offset of 6 uS/cm, 150 ppm at 40 mS/cm, with certainty", () => {
    for (const seed of seeds) {
      const { error, sd } = overCruise(seed, 6, { rinsed: true, drained: true });
      expect(error / sd).toBeGreaterThan(5);
      expect(Math.abs(error - 6) / sd).toBeLessThan(2);
    }
  });

  it("readings of a cell with water in it show no offset, whether it has one or not", () => {
    for (const offset of [0, 6]) {
      for (const seed of seeds) {
        const { error, sd } = overCruise(seed, offset, { rinsed: true, drained: false });
        expect(error / sd).toBeLessThan(2);
      }
    }
  });
});

/** A short cruise of one cell with scans on deck, rinsed after every cast, and its line cast by cast. */
function fromDeck(
  seed: number,
  deck: NonNullable<TimeSeries["deck"]>,
  offset_uS_cm: number,
  events: readonly SimulatedEvent[] = [],
) {
  const casts = 8;
  const { cruise } = simulateCruise({
    seed,
    casts,
    cells: ["primary"],
    deepest_dbar: 30,
    bottlePressures_dbar: [],
    sampling: { kind: "time-series", rate_Hz: 2, soak_s: 10, deck },
    events: [
      { kind: "additive-offset", cell: "primary", fromCast: 1, microsiemens_cm: offset_uS_cm },
      ...Array.from({ length: casts - 1 }, (_, i) => rinseAfter(i + 1)),
      ...events,
    ],
  });
  const rinses = { before: cruise.maintenance.slice(0, 1), after: [] };
  return cruise.casts.map(({ id, data }) => airZeroEvidence(id, "primary", data, rinses));
}
const rinseAfter = (afterCast: number): SimulatedEvent => ({
  kind: "cleaning",
  afterCast,
  intensity: "rinse",
  retained: 1,
});
const observationsOf = (lines: ReturnType<typeof fromDeck>) =>
  lines.flatMap(({ observations }) => observations);
/** How far the mean of a cruise, weighted as the model would, is from the truth, in its own errors. */
function cruiseError(lines: ReturnType<typeof fromDeck>, truth: number) {
  let [weights, sum] = [0, 0];
  for (const { value, variance } of observationsOf(lines)) {
    weights += 1 / variance;
    sum += value / variance;
  }
  return { error: sum / weights - truth, sd: 1 / Math.sqrt(weights) };
}
const seeds = Array.from({ length: 10 }, (_, i) => i + 1);
const draining = { seconds: 90, draining_microsiemens_cm: 150, draining_s: 10 };

describe("scans in air", () => {
  it("scans in air give the offset of a dry cell within the noise of their mean, for both signs", () => {
    for (const offset of [-5, 0, 25]) {
      for (const seed of seeds.slice(0, 3)) {
        const found = observationsOf(fromDeck(seed, { before: { seconds: 60 } }, offset));
        expect(found).toHaveLength(8);
        for (const { value } of found) expect(Math.abs(value - offset)).toBeLessThan(0.25);
      }
    }
  });

  it.each([
    ["before the cast, rinsed", { before: { seconds: 60, left_microsiemens_cm: 0.5 } }],
    ["after it, out of the water", { after: { ...draining, left_microsiemens_cm: 3 } }],
    [
      "on both sides",
      {
        before: { seconds: 60, left_microsiemens_cm: 0.5 },
        after: { ...draining, left_microsiemens_cm: 3 },
      },
    ],
  ])("%s hold the true offset within their errors, one by one and over a cruise", (_, deck) => {
    for (const offset of [-4, 0, 10]) {
      let [n, beyond, squares] = [0, 0, 0];
      for (const seed of seeds) {
        const lines = fromDeck(seed, deck, offset);
        for (const { value, variance } of observationsOf(lines)) {
          n++;
          if ((value - offset) ** 2 > 1.96 ** 2 * variance) beyond++;
        }
        const { error, sd } = cruiseError(lines, offset);
        squares += (error / sd) ** 2;
      }
      expect(n).toBeGreaterThanOrEqual(seeds.length * 8);
      expect(beyond / n).toBeLessThan(0.05);
      expect(Math.sqrt(squares / seeds.length)).toBeLessThan(1.3);
    }
  });

  it("a cell kept full of rinse water of 20 uS/cm shows no offset over a cruise", () => {
    const full = { before: { seconds: 60, left_microsiemens_cm: 20 } };
    for (const seed of seeds) {
      const { error, sd } = cruiseError(fromDeck(seed, full, 0), 0);
      expect(error / sd).toBeLessThan(2);
    }
  });

  it("a rinsed cell without offset is within 1 uS/cm, 25 ppm at 40 mS/cm", () => {
    const deck = { before: { seconds: 60, left_microsiemens_cm: 0.3 }, after: draining };
    for (const seed of seeds) {
      const { error, sd } = cruiseError(fromDeck(seed, deck, 0), 0);
      expect(sd).toBeLessThan(1);
      expect(Math.abs(error)).toBeLessThan(1);
    }
  });

  it("a film does not change the reading in air: a narrowed cell still reads zero", () => {
    const events: SimulatedEvent[] = [
      { kind: "film-step", cells: ["primary"], cast: 1, at: "before-cast", ppm: -5000 },
    ];
    const deck = { before: { seconds: 60 }, after: draining };
    for (const offset of [0, 6]) {
      const clean = observationsOf(fromDeck(3, deck, offset));
      const fouled = observationsOf(fromDeck(3, deck, offset, events));
      expect(fouled).toEqual(clean);
    }
    // Were the reading in air narrowed as well: 5000 ppm of 6 uS/cm.
    const cast = deckCast({ level: 6 });
    const narrowed = deckCast({ level: 6 * (1 - 5000e-6) });
    const [a, b] = [cast, narrowed].map((own) => line(own).observations[0]!.value);
    expect(Math.abs(a! - b!)).toBeLessThan(0.04);
  });

  it("scans of a draining cell count as soon as they are constant", () => {
    for (const seed of seeds) {
      for (const { value } of observationsOf(fromDeck(seed, { after: draining }, 2))) {
        // exp(-45 / 10) of 150 is 1.7, and half of the scans come later than that.
        expect(value).toBeGreaterThan(1.5);
        expect(value).toBeLessThan(3.2);
      }
    }
  });

  it("scans of a cell that still drains are not a reading in air, with a note", () => {
    const slow = { ...draining, draining_s: 60 };
    for (const { observations, leftOut } of fromDeck(5, { after: slow }, 0)) {
      expect(observations).toEqual([]);
      expect(leftOut.map(({ why }) => why).join()).toMatch(/still draining: it fell by/);
    }
  });

  it("higher scans in air after the cast are attributed to water and get little weight", () => {
    const rinse: MaintenanceEvent = { action: "rinse", time: "2031-05-04T12:30:00Z" };
    const wet = deckCast({ level: 0, after: 30 });
    const { observations, notes } = airZeroEvidence("001", "primary", wet, {
      before: [rinse],
      after: [],
    });
    expect(observations.map(({ value }) => Math.round(value))).toEqual([0, 30]);
    const [dry, high] = observations.map(({ variance }) => variance);
    expect(high).toBeGreaterThan(900);
    expect(dry! / high!).toBeLessThan(0.02);
    expect(notes.join()).toMatch(/after the cast: 30.* above the lowest.*Rinse/);
  });

  it("scans in air with large scatter get a note on a loose part, and less weight", () => {
    // Below zero no water hides the scatter.
    const calm = line(deckCast({ level: -60 }));
    const noisy = line(deckCast({ level: -60, noise: 80 }));
    expect(noisy.notes.join()).toMatch(/scatter by/);
    expect(calm.notes.join()).not.toMatch(/scatter/);
    // 80 / sqrt(90) is the least that the mean of the scans can be off by.
    const added = noisy.observations[0]!.variance - calm.observations[0]!.variance;
    expect(Math.sqrt(added)).toBeGreaterThan((0.7 * 80) / Math.sqrt(90));
  });

  it("splashes, gaps and outliers do not change the level in air", () => {
    const cast = deckCast({ level: 3 });
    const { conductivity_mS_cm } = cast.columns.primary;
    for (const i of [7, 31, 32, 60]) conductivity_mS_cm[i] = 35;
    for (const i of [12, 13, 14, 50]) conductivity_mS_cm[i] = Number.NaN;
    for (const i of [20, 40]) cast.columns.pressure_dbar[i] = -999;
    expect(Math.abs(line(cast).observations[0]!.value - 3)).toBeLessThan(0.3);
  });

  it("scans of a second cell that still contains water are not a reading in air", () => {
    const cast = deckCast({ level: 1 });
    const own = cast.columns.primary;
    const full = own.conductivity_mS_cm.map(() => 31);
    const both: Cast = {
      ...cast,
      columns: { ...cast.columns, secondary: { ...own, conductivity_mS_cm: full } },
    };
    expect(line(both).observations).toHaveLength(1);
    const { observations, leftOut } = airZeroEvidence("001", "secondary", both, nothing);
    expect(observations).toEqual([]);
    expect(leftOut[0]!.why).toMatch(/held water/);
  });

  const station = coastal.stations[0]!;
  it.skipIf(!existsSync(coastal.folder))(
    "open casts without scans in air have no air line (skipped without ../shared/data)",
    () => {
      expect(line(coastalCast(station))).toMatchObject({
        observations: [],
        leftOut: [],
        notes: ["no reading in air"],
      });
    },
  );

  it("a reading in air needs ten seconds of scans with measured conductivity", () => {
    const short = line(deckCast({ level: 1, scans: 9 }));
    expect(short.observations).toEqual([]);
    expect(short.leftOut[0]!.why).toMatch(/too short/);
    expect(line(deckCast({ level: 1, scans: 0 }))).toMatchObject({
      observations: [],
      leftOut: [],
      notes: ["no reading in air"],
    });
    const rebuilt: Cast = { ...deckCast({ level: 1 }), conductivityFrom: "salinity" };
    expect(line(rebuilt).observations).toEqual([]);
    const { secondary: none } = deckCast({ level: 1 }).columns;
    expect(none).toBeUndefined();
    const other = airZeroEvidence("001", "secondary", deckCast({ level: 1 }), nothing);
    expect(other.observations).toEqual([]);
  });

  it("scans in air before and after the cast are distinguished from those in the water", () => {
    const cast = deckCast({ level: 1, after: 2 });
    const { before, after } = airScans(cast.columns);
    const n = cast.columns.pressure_dbar.length;
    expect(before).toEqual(Array.from({ length: 90 }, (_, i) => i));
    expect(after).toEqual(Array.from({ length: 90 }, (_, i) => n - 90 + i));
    const { after: none } = airScans(deckCast({ level: 1 }).columns);
    expect(none).toEqual([]);
  });
});

const nothing = { before: [], after: [] };
const line = (cast: Cast) => airZeroEvidence("001", "primary", cast, nothing);

/** One scan a second: on deck before (and after) at a level in uS/cm, and 40 dbar down and up between. */
function deckCast(deck: {
  readonly level: number;
  readonly after?: number;
  readonly noise?: number;
  readonly scans?: number;
}): Cast {
  const { level, after, noise = 0.3, scans = 90 } = deck;
  const random = seeded(17);
  const air = (mean: number) =>
    Array.from({ length: scans }, () => (mean + noise * random.normal()) / 1000);
  const water = Array.from({ length: 80 }, () => 38);
  const depth = Array.from({ length: 80 }, (_, i) => 40 - Math.abs(40 - i) + 0.5);
  const behind = after === undefined ? [] : air(after);
  const conductivity = [...air(level), ...water, ...behind];
  const pressure = [...air(0), ...depth, ...behind.map(() => 0)];
  return castOf(
    pressure,
    conductivity.map(() => 12),
    conductivity,
  );
}
