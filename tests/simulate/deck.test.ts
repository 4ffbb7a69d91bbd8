import { describe, expect, it } from "vitest";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { simulateCruise } from "../../src/simulate/cruise.js";
import type { SimulatedEvent } from "../../src/simulate/events.js";
import type { Scenario, TimeSeries } from "../../src/simulate/scenario.js";

const rate_Hz = 4;
const scenario = (
  deck: TimeSeries["deck"] | undefined,
  events: readonly SimulatedEvent[] = [],
  soak_s = 30,
): Scenario => ({
  seed: 9,
  casts: 2,
  deepest_dbar: 80,
  bottlePressures_dbar: [60, 20],
  sampling: { kind: "time-series", rate_Hz, soak_s, ...(deck === undefined ? {} : { deck }) },
  events,
});
const run = (...given: Parameters<typeof scenario>) => simulateCruise(scenario(...given));
const deck = {
  before: { seconds: 30 },
  after: { seconds: 60, draining_microsiemens_cm: 100, draining_s: 10, left_microsiemens_cm: 3 },
};
const before = 30 * rate_Hz;
const after = 60 * rate_Hz;
const columnsOf = (ran: ReturnType<typeof run>, cast = 1) =>
  ran.cruise.casts[cast - 1]!.data!.columns;
const uS = (values: Float64Array) => values.map((c) => 1000 * c);
const meanOf = (values: Float64Array) => values.reduce((sum, v) => sum + v, 0) / values.length;
const offset = (microsiemens_cm: number, fromCast = 1): SimulatedEvent => ({
  kind: "additive-offset",
  cell: "primary",
  fromCast,
  microsiemens_cm,
});

describe("scans on deck", () => {
  it("scans on deck come before and after those in the water and do not change them", () => {
    const [bare, with_] = [run(undefined), run(deck)];
    for (const cast of [1, 2]) {
      const [a, b] = [columnsOf(bare, cast), columnsOf(with_, cast)];
      const n = a.pressure_dbar.length;
      expect(b.pressure_dbar.length).toBe(before + n + after);
      const inWater = (column: Float64Array) => column.slice(before, before + n);
      expect(inWater(b.pressure_dbar)).toEqual(a.pressure_dbar);
      for (const cell of ["primary", "secondary"] as const) {
        expect(inWater(b[cell]!.conductivity_mS_cm)).toEqual(a[cell]!.conductivity_mS_cm);
        expect(inWater(b[cell]!.temperature_C)).toEqual(a[cell]!.temperature_C);
      }
    }
    expect(with_.cruise.bottles.map(({ salinity }) => salinity)).toEqual(
      bare.cruise.bottles.map(({ salinity }) => salinity),
    );
  });

  it("the time of scans and bottles runs evenly from the first scan on deck", () => {
    const ran = run(deck);
    const { time_s, pressure_dbar } = columnsOf(ran);
    time_s!.forEach((t, i) => {
      expect(t).toBeCloseTo(i / rate_Hz, 9);
    });
    const bare = run(undefined).cruise.bottles;
    ran.cruise.bottles.slice(0, 2).forEach(({ time_s: t, pressure_dbar: p }, i) => {
      expect(t).toBeCloseTo(30 + bare[i]!.time_s!, 9);
      expect(Math.abs(pressure_dbar[Math.round(rate_Hz * t!)]! - p)).toBeLessThan(1);
    });
  });

  it("scans on deck are recognised, and after a long soak the legs equal those without them", () => {
    const [bare, with_] = [undefined, deck].map((own) => {
      const given = scenario(own, [], 90);
      return splitLegs(simulateCruise(given).cruise.casts[0]!.data!);
    });
    expect(with_!.leftOut.onDeck).toBe(before + after);
    expect(with_!.down).toEqual(bare!.down.map((i) => i + before));
    expect(with_!.up).toEqual(bare!.up.map((i) => i + before));
  });

  it("scans on deck show water draining by a factor e in its time to a residue of each cast and cell", () => {
    const left = [1, 2].flatMap((cast) =>
      (["primary", "secondary"] as const).map((cell) => {
        const c = uS(columnsOf(run(deck), cast)[cell]!.conductivity_mS_cm).slice(-after);
        const rest = c.slice(-10 * rate_Hz);
        const stays = meanOf(rest) - 100 * Math.exp(-5.5);
        for (const seconds of [0, 10, 20]) {
          const here = meanOf(c.slice(seconds * rate_Hz, (seconds + 1) * rate_Hz)) - stays;
          expect(Math.abs(here - 100 * Math.exp(-(seconds + 0.4) / 10))).toBeLessThan(1);
        }
        expect(stays).toBeGreaterThan(-0.5);
        return Math.round(1000 * stays);
      }),
    );
    expect(new Set(left).size).toBe(4);
  });
});

describe("an additive offset", () => {
  it("an additive offset is in every reading of its cell from its cast on: water, closure and air", () => {
    const [clean, off] = [run(deck), run(deck, [offset(8, 2)])];
    expect(columnsOf(off, 1)).toEqual(columnsOf(clean, 1));
    const [a, b] = [columnsOf(clean, 2), columnsOf(off, 2)];
    expect(b.secondary).toEqual(a.secondary);
    expect(b.primary.temperature_C).toEqual(a.primary.temperature_C);
    b.primary.conductivity_mS_cm.forEach((c, i) => {
      expect(1000 * (c - a.primary.conductivity_mS_cm[i]!)).toBeCloseTo(8, 6);
    });
    off.cruise.bottles.forEach(({ cast, ctd }, i) => {
      const was = clean.cruise.bottles[i]!.ctd!.primary!.conductivity_mS_cm;
      const added = 1000 * (ctd!.primary!.conductivity_mS_cm - was);
      expect(added).toBeCloseTo(cast === "002" ? 8 : 0, 6);
    });
  });

  it("additive offsets of a cell add up in its truth and do not change its gain", () => {
    const { truth } = run(undefined, [offset(8), offset(-3, 2)]);
    const found = truth.map(({ cells }) => cells.primary!);
    expect(found.map((cell) => cell.additiveOffset_microsiemens_cm)).toEqual([8, 5]);
    expect(found.map(({ gain }) => gain.up)).toEqual([0, 0]);
    expect(truth[1]!.cells.secondary!.additiveOffset_microsiemens_cm).toBe(0);
  });

  it("a recorded reading in air contains the offset and the residual water, which the record does not mention", () => {
    const reading = (afterCast: number, water_microsiemens_cm?: number): SimulatedEvent => ({
      ...{ kind: "air-reading", afterCast, cell: "primary", rinsed: true, drained: false },
      ...(water_microsiemens_cm === undefined ? {} : { water_microsiemens_cm }),
    });
    const { maintenance } = run(undefined, [reading(1), offset(-9, 2), reading(2, 30)]).cruise;
    expect(maintenance.map(({ afterCast, action }) => [afterCast, action])).toEqual([
      ["001", "air-reading"],
      ["002", "air-reading"],
    ]);
    [0, 21].forEach((uS_cm, i) => {
      expect(Math.abs(1000 * maintenance[i]!.reading_mS_cm! - uS_cm)).toBeLessThan(1.5);
    });
    expect(JSON.stringify(maintenance)).not.toMatch(/water|offset/);
    expect(() => run(undefined, [reading(1, -3)])).toThrow(/water.*found -3/);
  });

  it("an impossible additive offset or time on deck is refused", () => {
    expect(() => run(undefined, [offset(Number.NaN)])).toThrow(/additive-offset.*found NaN/);
    expect(() => run(undefined, [offset(1, 3)])).toThrow(/a cast from 1 to 2; found 3/);
    expect(() => run({ before: { seconds: -1 } })).toThrow(/seconds in air.*found -1/);
    expect(() => run({ after: { seconds: 9, draining_s: 0 } })).toThrow(/draining_s/);
    expect(() => run({ after: { seconds: 9, left_microsiemens_cm: -2 } })).toThrow(/water/);
  });
});
