import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Cruise } from "../../src/cast/cruise.js";
import type { CastFacts } from "../../src/read/castBuilder.js";
import { readCastCsv } from "../../src/read/castCsv.js";
import { checkCruise } from "../../src/read/checkCruise.js";
import { timeUnitFault } from "../../src/read/timeUnit.js";
import { cFromSp } from "../../src/seawater/index.js";
import { faultsOf } from "./faultsOf.js";

interface Lowering {
  readonly deepest: number;
  /** dbar/s. */
  readonly rate: number;
  readonly stops: number;
  readonly stand_s: number;
  readonly deck_s: number;
  readonly interval_s: number;
  readonly swell: number;
}

/** Invented casts as winches make them, from a lake to the deep sea, 24 Hz to averages over 5 s. */
const lowerings: fc.Arbitrary<Lowering> = fc.record({
  deepest: fc.integer({ min: 15, max: 6000 }),
  rate: fc.double({ min: 0.4, max: 1.6, noNaN: true }),
  stops: fc.integer({ min: 0, max: 12 }),
  stand_s: fc.integer({ min: 0, max: 60 }),
  deck_s: fc.integer({ min: 0, max: 1800 }),
  interval_s: fc.constantFrom(1 / 24, 0.25, 1, 5),
  swell: fc.double({ min: 0, max: 1, noNaN: true }),
});

function pathOf(of: Lowering): { readonly time: Float64Array; readonly pressure: Float64Array } {
  // By the second, as pairs of time and depth, then as scans.
  const corners: [number, number][] = [[0, 0]];
  const go = (to: number) => {
    const [t, p] = corners.at(-1)!;
    corners.push([t + Math.abs(to - p) / of.rate, to]);
  };
  const stand = (seconds: number) => {
    const [t, p] = corners.at(-1)!;
    corners.push([t + seconds, p]);
  };
  stand(of.deck_s);
  go(of.deepest);
  for (let k = of.stops; k > 0; k--) {
    go((of.deepest * k) / (of.stops + 1));
    stand(of.stand_s);
  }
  go(0);
  const count = Math.floor(corners.at(-1)![0] / of.interval_s);
  let at = 0;
  const time = Float64Array.from({ length: count }, (_, i) => i * of.interval_s);
  const pressure = time.map((t) => {
    while (corners[at + 1]![0] < t) at++;
    const [[from, p], [to, q]] = [corners[at]!, corners[at + 1]!];
    return p + ((q - p) * (t - from)) / (to - from || 1) + of.swell * Math.sin(t / 1.4);
  });
  return { time, pressure };
}

const seconds = {
  milliseconds: 1e-3,
  minutes: 60,
  hours: 3600,
  days: 86_400,
} as const;
const names = Object.keys(seconds) as (keyof typeof seconds)[];

describe("the times of a cast", () => {
  it("times in seconds are accepted for any cast, with spikes, a clock step, or cut to the minute", () => {
    fc.assert(
      fc.property(lowerings, fc.constantFrom(0, 1000, 2e9), (of, from) => {
        const { time, pressure } = pathOf(of);
        const shifted = time.map((t) => from + t);
        expect(timeUnitFault(shifted, pressure)).toBeUndefined();
        const spiky = pressure.map((p, i) => (i % 17 === 0 ? 11_000 : p));
        expect(timeUnitFault(shifted, spiky)).toBeUndefined();
        const stepped = time.map((t, i) => (i > time.length / 3 ? t + 1e7 : t));
        expect(timeUnitFault(stepped, pressure)).toBeUndefined();
        const cut = time.map((t) => 60 * Math.floor(t / 60));
        expect(timeUnitFault(cut, pressure)).toBeUndefined();
      }),
      { seed: 1, numRuns: 25 },
    );
  });

  it("times in another unit are refused with its name", () => {
    fc.assert(
      fc.property(
        lowerings,
        fc.constantFrom(...names),
        fc.constantFrom(0, 150),
        (of, unit, from) => {
          // Of a moment in the water after long on deck nothing can be said.
          const way_s = of.deepest / of.rate;
          fc.pre(way_s > 20 * of.interval_s && way_s > of.deck_s / 3);
          const { time, pressure } = pathOf(of);
          const fault = timeUnitFault(
            time.map((t) => from + t / seconds[unit]),
            pressure,
          );
          expect(fault?.found).toContain(`they look like ${unit}`);
          expect(fault?.mend).toContain(`Multiply them by ${seconds[unit]} `);
        },
      ),
      { seed: 1, numRuns: 40 },
    );
  });

  it("constant, missing or few times, and a package at rest, do not determine the unit", () => {
    const { time, pressure } = pathOf({
      ...{ deepest: 100, rate: 1, stops: 0, stand_s: 0, deck_s: 0, interval_s: 1, swell: 0 },
    });
    for (const times of [time.fill(7), time.map(() => Number.NaN)]) {
      expect(timeUnitFault(times, pressure)).toBeUndefined();
    }
    expect(timeUnitFault([0, 1, 2], [0, 500, 1000])).toBeUndefined();
    const still = pressure.map((_, i) => 50 + (i % 3));
    expect(timeUnitFault(Float64Array.from(still.keys()), still)).toBeUndefined();
    expect(timeUnitFault([], [])).toBeUndefined();
  });
});

const { time, pressure } = pathOf({
  ...{ deepest: 300, rate: 1, stops: 2, stand_s: 30, deck_s: 20, interval_s: 1, swell: 0.3 },
});
const table = (heading: string, of: (t: number) => number, units?: string) =>
  [
    `${heading},pressure_dbar,temperature_C,conductivity_mS_cm`,
    ...(units === undefined ? [] : [`${units},dbar,degree_C,mS cm-1`]),
  ]
    .concat(Array.from(time, (t, i) => `${of(t)},${pressure[i]},8,${cFromSp(35, 8, pressure[i]!)}`))
    .join("\n");
const read = (text: string, more: Partial<CastFacts> = {}) =>
  readCastCsv(text, { id: "001", file: "001.csv", ...more });

describe("a cast whose times are in days", () => {
  const inDays = (t: number) => 132 + t / 86_400;

  it("times in days are refused with file, column, found value and correction", () => {
    const [fault] = faultsOf(() => read(table("time_s", inDays)));
    expect(fault).toMatchObject({
      file: "001.csv",
      line: 1,
      column: "time_s",
      expected: "seconds: a package moves at 0.003 to 10 dbar a second",
      mend: "Multiply them by 86400 to seconds, or leave the column out.",
    });
    expect(fault!.found).toMatch(/dbar a second: they look like days$/);
  });

  it("times in days from a program are refused", () => {
    const { cast } = read(table("time_s", (t) => t));
    const columns = { ...cast.columns, time_s: cast.columns.time_s!.map(inDays) };
    const cruise: Cruise = {
      name: "an invented cruise",
      casts: [{ id: "001", data: { ...cast, columns } }],
      ...{ bottles: [], maintenance: [], instrument: {}, target: 0.002, inputs: [] },
    };
    const [fault] = faultsOf(() => checkCruise(cruise));
    expect(fault).toMatchObject({ file: "cast 001", column: "time_s" });
  });

  it("times in days are read if the mapping or the line of units states days, with a note", () => {
    for (const [heading, text] of [
      ["elapsed [days]", table("elapsed [days]", inDays)],
      ["elapsed (d)", table("elapsed (d)", inDays)],
      ["elapsed", table("elapsed", inDays, "days since 2031-01-01")],
    ] as const) {
      const { cast, input } = read(text, { mapping: { time_s: heading } });
      const times = cast.columns.time_s!;
      for (const i of [10, 200, times.length - 1]) {
        expect(times[i]! - times[0]!).toBeCloseTo(time[i]!, 3);
      }
      expect(input.notes.join()).toMatch(/elapsed.* was converted from d/);
    }
  });

  it("the heading time_s is refused if the line of units states days", () => {
    const [fault] = faultsOf(() => read(table("time_s", inDays, "days")));
    expect(fault).toMatchObject({ column: "time_s", found: 'the unit "days" below it' });
  });

  it("times in seconds under a heading with an unknown unit are read as seconds", () => {
    const { cast } = read(
      table("elapsed [since start]", (t) => t),
      {
        mapping: { time_s: "elapsed [since start]" },
      },
    );
    expect(cast.columns.time_s![10]).toBe(time[10]);
  });
});
