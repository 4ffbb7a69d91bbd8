import { existsSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Legs, splitLegs } from "../../src/cast/splitLegs.js";
import { castOf, coastal, coastalCast, lowered } from "./castOf.js";
import { type Doing, type Lowering, simulateLowering } from "./simulateLowering.js";

const station: Lowering = {
  rate_Hz: 24,
  deepest_dbar: 600,
  soak: { dbar: 10, seconds: 120, raised: true },
  stops: [500, 300, 150, 75, 30],
  stopsDown: [350],
  stop_s: 45,
  heave: { amplitude_m: 2, period_s: 8 },
  withTime: true,
  seed: 11,
};

function share(scans: Uint32Array, doing: readonly Doing[], what: Doing): number {
  return scans.filter((i) => doing[i] === what).length / doing.filter((d) => d === what).length;
}

/** Every scan is in exactly one part. */
function expectWhole(legs: Legs, scans: number): void {
  const out = Object.values(legs.leftOut).reduce((sum, count) => sum + count, 0);
  expect(legs.down.length + legs.up.length + out).toBe(scans);
}

describe.each([
  { name: "24 Hz with its time", rate_Hz: 24, withTime: true },
  { name: "24 Hz without time", rate_Hz: 24, withTime: false },
  { name: "4 Hz without time", rate_Hz: 4, withTime: false },
  { name: "1 Hz with its time", rate_Hz: 1, withTime: true },
])("scans at $name", ({ rate_Hz, withTime }) => {
  test.each([0, 2])("legs, soak and stops are found under heave of %s m at 8 s", (amplitude_m) => {
    const heave = { amplitude_m, period_s: 8 };
    const { cast, doing } = simulateLowering({ ...station, rate_Hz, withTime, heave });
    const legs = splitLegs(cast);
    expectWhole(legs, doing.length);
    for (const [leg, scans] of [
      ["down", legs.down],
      ["up", legs.up],
    ] as const) {
      // Heave makes the package pass about a third of the water twice: those scans are reversals.
      expect(share(scans, doing, leg)).toBeGreaterThan(amplitude_m === 0 ? 0.97 : 0.6);
      const own = scans.filter((i) => doing[i] === leg).length / scans.length;
      expect(own).toBeGreaterThan(0.99);
    }
    expect(legs.leftOut.onDeck).toBe(doing.filter((d) => d === "deck").length);
    const soaked = doing.filter((d) => d === "soak").length;
    expect(Math.abs(legs.leftOut.soak - soaked)).toBeLessThan(0.06 * soaked);
    const stood = doing.filter((d) => d === "stop").length;
    expect(Math.abs(legs.leftOut.bottleStops - stood)).toBeLessThan(0.1 * stood);
  });
});

test("each leg passes its water once: pressure rises on the way down and falls on the way up", () => {
  const { cast } = simulateLowering(station);
  const { down, up } = splitLegs(cast);
  const pressure = cast.columns.pressure_dbar;
  const furthest = { down: Number.NEGATIVE_INFINITY, up: Number.POSITIVE_INFINITY };
  for (const i of down) {
    expect(pressure[i]!).toBeGreaterThan(furthest.down - 0.06);
    furthest.down = Math.max(furthest.down, pressure[i]!);
  }
  for (const i of up) {
    expect(pressure[i]!).toBeLessThan(furthest.up + 0.06);
    furthest.up = Math.min(furthest.up, pressure[i]!);
  }
});

test("without a soak the down leg begins when the pump runs, a minute or so after the entry", () => {
  const none = { dbar: 0, seconds: 0, raised: false };
  const { cast, doing } = simulateLowering({ ...station, soak: none, stopsDown: [] });
  const entry = doing.indexOf("down");
  const time = cast.columns.time_s!;
  const firstOf = (scans: Uint32Array) => time[scans[0]!]! - time[entry]!;
  expect(firstOf(splitLegs(cast).down)).toBeGreaterThan(60);
  expect(firstOf(splitLegs(cast).down)).toBeLessThan(90);
  // A file that begins in the water does not show when the package went in.
  const { pressure_dbar, primary, others } = cast.columns;
  const wet = {
    time_s: time.subarray(entry),
    pressure_dbar: pressure_dbar.subarray(entry),
    primary: {
      temperature_C: primary.temperature_C.subarray(entry),
      conductivity_mS_cm: primary.conductivity_mS_cm.subarray(entry),
    },
    others,
  };
  const { down } = splitLegs({ ...cast, columns: wet });
  expect(wet.pressure_dbar[down[0]!]!).toBeLessThan(6);
});

test("a shallow cast without a soak keeps half of its down leg", () => {
  const none = { dbar: 0, seconds: 0, raised: false };
  const shallow = { deepest_dbar: 40, soak: none, stopsDown: [], stops: [20] };
  const { cast } = simulateLowering({ ...station, ...shallow });
  const { down } = splitLegs(cast);
  expect(cast.columns.pressure_dbar[down[0]!]!).toBeLessThan(28);
});

test("a soak without a return to the surface ends where the lowering begins", () => {
  const soak = { dbar: 10, seconds: 120, raised: false };
  const { cast } = simulateLowering({ ...station, soak });
  const { down } = splitLegs(cast);
  const first = cast.columns.pressure_dbar[down[0]!]!;
  expect(first).toBeGreaterThan(5);
  expect(first).toBeLessThan(14);
});

test("after a return to the surface, the down leg contains the water between surface and soak", () => {
  const { cast } = simulateLowering({ ...station, heave: { amplitude_m: 0, period_s: 8 } });
  const { down } = splitLegs(cast);
  expect(cast.columns.pressure_dbar[down[0]!]!).toBeLessThan(5.2);
});

test("averages of one dbar keep both legs complete, except at the surface", () => {
  const levels = Array.from({ length: 500 }, (_, i) => i + 1);
  const legs = splitLegs(lowered([...levels, ...levels.slice(0, -1).reverse()]));
  expect(legs.down.length).toBe(496);
  expect(legs.up.length).toBe(495);
  expect(legs.leftOut).toMatchObject({ surface: 8, soak: 0, bottleStops: 0, reversals: 0 });
});

test.each([
  { leg: "down", other: "up", order: (p: number[]) => p },
  { leg: "up", other: "down", order: (p: number[]) => p.reverse() },
] as const)(
  "averages of the $leg leg alone are that leg, with a note that the other is absent",
  (only) => {
    const legs = splitLegs(lowered(only.order(Array.from({ length: 300 }, (_, i) => 2 * i + 6))));
    expect(legs[only.leg].length).toBe(300);
    expect(legs[only.other].length).toBe(0);
    expect(legs.notes.join()).toContain(`no usable scan on the way ${only.other}`);
  },
);

test("a sample rate that does not fit the scans, as in averages, is not used", () => {
  const levels = Array.from({ length: 300 }, (_, i) => 2 * i + 6);
  const legs = splitLegs(lowered(levels, { sampleRate_Hz: 24 }));
  expect(legs.clock.from).toBe("pressure");
  expect(legs.down.length).toBe(300);
});

test("a time column that runs backwards is not used, with a note", () => {
  const levels = Array.from({ length: 300 }, (_, i) => 2 * i + 6);
  const time_s = Float64Array.from(levels, (_, i) => (i < 150 ? i : i - 150));
  const legs = splitLegs(lowered(levels, { time_s }));
  expect(legs.down.length).toBe(300);
  expect(legs.notes.join()).toContain("time column");
});

test("a false pressure does not become the turn", () => {
  const levels = Array.from({ length: 300 }, (_, i) => i + 6);
  for (const at of [0, 3, 150, 298, 299]) {
    const legs = splitLegs(lowered(levels.map((p, i) => (i === at ? 4190 : p))));
    expect(legs.leftOut.missing).toBe(1);
    expect(legs.down.length).toBe(299);
  }
});

test("fill values count as missing", () => {
  const levels = Array.from({ length: 300 }, (_, i) => (i % 7 === 0 ? -999 : i + 6));
  const legs = splitLegs(lowered(levels));
  expect(legs.leftOut.missing).toBe(43);
  expect(legs.down.length).toBe(257);
});

test("scans on deck in air colder than any water count as on deck", () => {
  const { cast, doing } = simulateLowering(station);
  const { temperature_C, conductivity_mS_cm } = cast.columns.primary;
  // The readers take such a temperature as missing.
  const cold = temperature_C.map((t, i) => (doing[i] === "deck" ? Number.NaN : t));
  const primary = { temperature_C: cold, conductivity_mS_cm };
  const winter = splitLegs({ ...cast, columns: { ...cast.columns, primary } });
  expect(winter.leftOut).toEqual(splitLegs(cast).leftOut);
});

test("scans of a package lifted out of the water after its soak are in air, not on deck", () => {
  const down = Array.from({ length: 100 }, (_, i) => i + 6);
  const pressure = [0, 0, ...Array(40).fill(3), 0, 0, 0, 1, ...down];
  const wet = (i: number) => (i >= 2 && i < 42) || i > 44;
  const cast = castOf(
    pressure,
    pressure.map(() => 10),
    pressure.map((_, i) => (wet(i) ? 40 : 0.01)),
  );
  expect(splitLegs(cast).leftOut).toMatchObject({ onDeck: 2, inAir: 3 });
});

test("too few scans for a leg give a note, not an error", () => {
  const nothing = splitLegs(lowered([]));
  expect(nothing.down.length + nothing.up.length).toBe(0);
  const missing = splitLegs(lowered(Array(50).fill(Number.NaN)));
  expect(missing.leftOut.missing).toBe(50);
  expect(missing.notes.join()).toContain("no legs");
  const standing = splitLegs(lowered(Array(500).fill(1000)));
  expect(standing.notes.join()).toContain("no legs");
  expectWhole(standing, 500);
  const three = splitLegs(lowered([1, 50, 100]));
  expectWhole(three, 3);
});

test("a cast without soak or stops, read backwards, splits into the same legs", () => {
  const quiet: Lowering = {
    ...station,
    soak: { dbar: 1, seconds: 0, raised: false },
    stops: [],
    stopsDown: [],
    heave: { amplitude_m: 0, period_s: 8 },
  };
  const { cast } = simulateLowering({ ...quiet, withTime: false });
  const backwards = (column: Float64Array) => column.slice().reverse();
  const { pressure_dbar, primary } = cast.columns;
  const reversed = castOf(
    backwards(pressure_dbar),
    backwards(primary.temperature_C),
    backwards(primary.conductivity_mS_cm),
  );
  const forth = splitLegs(cast);
  const back = splitLegs(reversed);
  // The surface hold before and after differs, and is left out either way.
  expect(Math.abs(back.down.length - forth.up.length)).toBeLessThan(0.01 * forth.up.length);
  expect(Math.abs(back.up.length - forth.down.length)).toBeLessThan(0.01 * forth.down.length);
});

test("any column of pressures gives legs and parts without overlap", () => {
  const reading = fc.oneof(
    fc.double({ min: -5, max: 6000, noNaN: true }),
    fc.constantFrom(Number.NaN, -999, 0, 1e30, Number.NEGATIVE_INFINITY),
  );
  fc.assert(
    fc.property(fc.array(reading, { maxLength: 80 }), fc.boolean(), (pressure, timed) => {
      const time_s = Float64Array.from(pressure, (_, i) => i / 2);
      const legs = splitLegs(lowered(pressure, timed ? { time_s } : {}));
      expectWhole(legs, pressure.length);
    }),
    { seed: 3, numRuns: 500 },
  );
});

test.skipIf(!existsSync(coastal.folder)).each(coastal.stations)(
  "the coastal cast of station %s has a surface hold, a bottom hold and two legs between (open data; skipped where absent)",
  (name) => {
    const cast = coastalCast(name);
    const legs = splitLegs(cast);
    const pressure = cast.columns.pressure_dbar;
    expectWhole(legs, pressure.length);
    const deepest = pressure.reduce((most, p) => Math.max(most, p), 0);
    for (const scans of [legs.down, legs.up]) {
      const reached = Array.from(scans, (i) => pressure[i]!);
      expect(scans.length).toBeGreaterThan(30);
      expect(Math.min(...reached)).toBeLessThan(0.3 * deepest);
      expect(Math.max(...reached)).toBeGreaterThan(0.85 * deepest);
    }
    expect(legs.down.at(-1)!).toBeLessThan(legs.up[0]!);
    expect(legs.leftOut.soak + legs.leftOut.surface).toBeGreaterThan(40);
    expect(legs.leftOut.bottom + legs.leftOut.bottleStops).toBeGreaterThan(30);
  },
);
