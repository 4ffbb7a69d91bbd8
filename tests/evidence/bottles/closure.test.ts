import { describe, expect, it } from "vitest";
import type { Bottle } from "../../../src/cast/bottle.js";
import type { Cast } from "../../../src/cast/cast.js";
import { usualBottleNoise } from "../../../src/evidence/bottles/bottleNoise.js";
import type { BottleSettings } from "../../../src/evidence/bottles/bottleResiduals.js";
import { bottlesEvidence } from "../../../src/evidence/bottles/bottles.js";
import { cFromSp } from "../../../src/seawater/index.js";
import { column } from "./closures.js";
import { standingCast } from "./standingCast.js";

/** In `column` temperature changes by 0.03 K a dbar at 80 dbar. */
const stops_dbar = [1500, 1000, 700, 400, 200, 80];
/** A cell with three times the usual amplitude [MorisonEtAl1994]. */
const slow = { alpha: 0.0735, tau_s: 9.5 };
const evidenceOf = (bottles: readonly Bottle[], cast: Cast, settings?: BottleSettings) =>
  bottlesEvidence("001", bottles, ["primary"], cast, usualBottleNoise, settings).evidence;
const valuesOf = (bottles: readonly Bottle[], cast: Cast, settings?: BottleSettings) =>
  evidenceOf(bottles, cast, settings).observations.map(({ value }) => value);
const sdsOf = (bottles: readonly Bottle[], cast: Cast, settings?: BottleSettings) =>
  evidenceOf(bottles, cast, settings).observations.map(({ variance }) => Math.sqrt(variance));
const timeless = (bottles: readonly Bottle[]): readonly Bottle[] =>
  bottles.map(({ time_s: _, ...rest }) => rest);

/** Every scan of the way up within 0.5 dbar, the arrival at the stop with it: the rule that this one replaced. */
function meanWithinHalfADbar({ columns }: Cast, { pressure_dbar, salinity }: Bottle): number {
  const { pressure_dbar: p, primary } = columns;
  const turn = p.indexOf(Math.max(...p));
  const near = Array.from(p.keys()).filter(
    (i) => i >= turn && Math.abs(p[i]! - pressure_dbar) <= 0.5,
  );
  const mean = (values: Float64Array) => near.reduce((sum, i) => sum + values[i]!, 0) / near.length;
  const reference = cFromSp(salinity, mean(primary.temperature_C), pressure_dbar);
  return 1e6 * Math.log(mean(primary.conductivity_mS_cm) / reference);
}

describe("a bottle with a closure time", () => {
  it("the reading at the closure time has no lag from the arrival, unlike the mean within 0.5 dbar", () => {
    const { cast, bottles } = standingCast({ stops_dbar, stand_s: 60, lag: slow, gain_ppm: -50 });
    const shallow = bottles.at(-1)!;
    expect(Math.abs(meanWithinHalfADbar(cast, shallow) + 50)).toBeGreaterThan(50);
    for (const value of valuesOf(bottles, cast)) expect(Math.abs(value + 50)).toBeLessThan(6);
  });

  it("a swell of 1.5 dbar and spikes in one scan of ten do not change the closure reading", () => {
    const calm = { stops_dbar, stand_s: 60, gain_ppm: -50 };
    for (const disturbed of [{ swell_dbar: 1.5 }, { spikesOneIn: 10 }]) {
      const { cast, bottles } = standingCast({ ...calm, ...disturbed });
      const values = valuesOf(bottles, cast);
      const sds = sdsOf(bottles, cast);
      expect(values).toHaveLength(stops_dbar.length);
      for (const [i, value] of values.entries()) {
        // Half a wave cannot be averaged away where salinity changes by 0.0027 a dbar; deep water is still.
        expect(Math.abs(value + 50)).toBeLessThan(sds[i]!);
        if (stops_dbar[i]! >= 700) expect(Math.abs(value + 50)).toBeLessThan(5);
      }
    }
  });

  it("after a short stop the remaining lag is in the variance", () => {
    const { cast, bottles } = standingCast({ stops_dbar, stand_s: 20, lag: slow });
    const last = stops_dbar.length - 1;
    const left = valuesOf(bottles, cast)[last]!;
    expect(Math.abs(left)).toBeGreaterThan(50);
    const without = standingCast({ stops_dbar, stand_s: 60 });
    const grown = Math.sqrt(
      sdsOf(bottles, cast)[last]! ** 2 - sdsOf(without.bottles, without.cast)[last]! ** 2,
    );
    // The lag of a slow published cell, as a standard uncertainty: not far from what this one has left.
    expect(grown).toBeGreaterThan(Math.abs(left) / 3);
    expect(grown).toBeLessThan(Math.abs(left) * 3);
  });

  it("a strong lag, as fitted to the cell, is in the variance of a closure as large as it is", () => {
    const strong = { alpha: 0.15, tau_s: 30 };
    const { cast, bottles } = standingCast({ stops_dbar, stand_s: 40, lag: strong });
    const last = stops_dbar.length - 1;
    const left = Math.abs(valuesOf(bottles, cast)[last]!);
    const known = sdsOf(bottles, cast, { lags: { primary: strong } })[last]!;
    expect(known).toBeGreaterThan(left);
    expect(known).toBeLessThan(left * 1.2);
    // A lag that is not known is taken for that of a slow cell.
    expect(sdsOf(bottles, cast)[last]!).toBeLessThan(left * 0.7);
  });

  it("heat that the outer parts of the cell hold is a known share of each bottle: salty after warm water, fresh after cold", () => {
    // As large as the lag of the wall in a steady gradient, 0.0245 x 9.5 s [MorisonEtAl1994], and lost within a minute.
    const outerHeat = { alpha: (0.0245 * 9.5) / 50, tau_s: 50 };
    const shallow = [120, 80, 60, 40];
    const { cast, bottles } = standingCast({ stops_dbar: shallow, stand_s: 15, lag: outerHeat });
    const { observations } = evidenceOf(bottles, cast);
    expect(observations).toHaveLength(shallow.length);
    const values = observations.map(({ value }) => value);
    expect(values[0]).toBeGreaterThan(4);
    expect(values[3]).toBeLessThan(-20);
    for (const [i, { design }] of observations.entries()) {
      const share = design.find((one) => "shared" in one && one.shared === "outerHeat");
      expect(Math.abs(share!.weight - values[i]!)).toBeLessThan(0.01 * Math.abs(values[i]!) + 0.5);
    }
  });

  it("a closure time in UTC equals the start of the cast plus seconds", () => {
    const { cast, bottles } = standingCast({ stops_dbar, stand_s: 60, lag: slow });
    const utc = timeless(bottles).map((bottle, i) => ({
      ...bottle,
      closureTime: new Date(Date.parse(cast.start!) + 1e3 * bottles[i]!.time_s!).toISOString(),
    }));
    expect(valuesOf(utc, cast)).toEqual(valuesOf(bottles, cast));
    const { start, ...without } = cast;
    expect(valuesOf(utc, without, { start: start! })).toEqual(valuesOf(bottles, cast));
    const { notes, observations } = evidenceOf(utc, without);
    expect(observations).toHaveLength(6);
    expect(notes.join()).toMatch(/closure times of 6 bottles not used: the start of the cast/);
  });

  it("a bottle with another pressure at its closure time is excluded if the clock fits the others", () => {
    const { cast, bottles } = standingCast({ stops_dbar, stand_s: 60 });
    const swapped = bottles.map((bottle, i) =>
      i === 1 ? { ...bottle, time_s: bottles[3]!.time_s! } : bottle,
    );
    expect(evidenceOf(swapped, cast).leftOut).toEqual([
      {
        what: "bottle 2 at 1000 dbar",
        why: "at its closure time the CTD was at 400 dbar: tripped at another place, or a wrong label or time",
      },
    ]);
    for (const [time_s, why] of [
      [100, /on the way down/],
      [1e6, /outside the cast/],
    ] as const) {
      const odd = bottles.map((bottle, i) => (i === 1 ? { ...bottle, time_s } : bottle));
      const { leftOut, observations } = evidenceOf(odd, cast);
      expect(leftOut.map(({ what }) => what)).toEqual(["bottle 2 at 1000 dbar"]);
      expect(leftOut[0]!.why).toMatch(why);
      expect(observations).toHaveLength(5);
    }
  });

  it("with a clock that is an hour off, bottles are placed by pressure, with a note", () => {
    const { cast, bottles } = standingCast({ stops_dbar, stand_s: 60, gain_ppm: -50 });
    const late = bottles.map((bottle) => ({ ...bottle, time_s: bottle.time_s! + 3600 }));
    const { observations, leftOut, notes } = evidenceOf(late, cast);
    expect(leftOut).toEqual([]);
    expect(notes.join()).toMatch(/closure times and pressures disagree for 6 of 6 bottles/);
    for (const { value } of observations) expect(Math.abs(value + 50)).toBeLessThan(3);
  });
});

describe("closure times to the minute", () => {
  const { cast, bottles } = standingCast({ stops_dbar, stand_s: 40, lag: slow, gain_ppm: -50 });
  const begun = Date.parse(cast.start!);
  const onMinutes = (of: readonly Bottle[], whole: (minutes: number) => number) =>
    timeless(of).map((bottle, i) => ({
      ...bottle,
      closureTime: new Date(60e3 * whole((begun + 1e3 * of[i]!.time_s!) / 60e3)).toISOString(),
    }));

  it.each([
    ["cut", Math.floor],
    ["rounded", Math.round],
    ["rounded up", Math.ceil],
  ])("%s, give the same numbers as none, and leave no bottle out", (_, whole) => {
    const without = evidenceOf(timeless(bottles), cast);
    expect(without.observations).toHaveLength(stops_dbar.length);
    for (const of of [bottles, bottles.slice(0, 1)]) {
      const { observations, leftOut } = evidenceOf(onMinutes(of, whole), cast);
      expect(observations).toEqual(evidenceOf(timeless(of), cast).observations);
      expect(leftOut).toEqual([]);
    }
  });

  it("closure times cut to the minute give the readings of exact times within their uncertainty", () => {
    const sds = sdsOf(bottles, cast);
    for (const [i, value] of valuesOf(onMinutes(bottles, Math.floor), cast).entries()) {
      expect(Math.abs(value - valuesOf(bottles, cast)[i]!)).toBeLessThan(sds[i]!);
    }
  });

  it("closure times are taken as exact if one of the cast does not end on the minute", () => {
    const exact = onMinutes(bottles, (minutes) => minutes);
    expect(valuesOf(exact, cast)).toEqual(valuesOf(bottles, cast));
    // The clock fits the others, so a wrong time leaves its bottle out.
    const wrong = exact.map((bottle, i) =>
      i === 1 ? { ...bottle, closureTime: cast.start! } : bottle,
    );
    expect(evidenceOf(wrong, cast).leftOut).toHaveLength(1);
  });
});

describe("a bottle without a closure time", () => {
  it("a bottle without a closure time is read at the end of the stop at its pressure, with or without swell", () => {
    for (const swell_dbar of [0, 1.5]) {
      const made = standingCast({ stops_dbar, stand_s: 60, lag: slow, gain_ppm: -50, swell_dbar });
      const values = valuesOf(timeless(made.bottles), made.cast);
      const sds = sdsOf(timeless(made.bottles), made.cast);
      expect(values).toHaveLength(stops_dbar.length);
      for (const [i, value] of values.entries()) {
        expect(Math.abs(value + 50)).toBeLessThan(swell_dbar === 0 ? 6 : sds[i]!);
        if (stops_dbar[i]! >= 700) expect(Math.abs(value + 50)).toBeLessThan(5);
      }
    }
  });

  it("a bottle closed on the move has twice the mismatch and the whole lag in its variance", () => {
    const flown = standingCast({ stops_dbar, stand_s: 0, lag: slow });
    const stood = standingCast({ stops_dbar, stand_s: 60, lag: slow });
    const fly = sdsOf(timeless(flown.bottles), flown.cast);
    const stand = sdsOf(timeless(stood.bottles), stood.cast);
    expect(fly).toHaveLength(stops_dbar.length);
    expect(fly.at(-1)! / stand.at(-1)!).toBeGreaterThan(1.8);
    for (const [i, value] of valuesOf(timeless(flown.bottles), flown.cast).entries()) {
      expect(Math.abs(value)).toBeLessThan(2 * fly[i]!);
    }
  });

  it("on a cast of averages without times a bottle is read in the layer of its pressure", () => {
    // Layers of 2 dbar, at 1, 3, 5 ...: a closure lies up to 1 dbar from the nearest.
    const down = Array.from({ length: 800 }, (_, k) => 2 * k + 1);
    const layers = [...down, ...down.toReversed()].map((p) => column(p));
    const cast: Cast = {
      id: "001",
      conductivityFrom: "measured",
      columns: {
        pressure_dbar: Float64Array.from(layers, (layer) => layer.pressure_dbar),
        primary: {
          temperature_C: Float64Array.from(layers, (layer) => layer.temperature_C),
          conductivity_mS_cm: Float64Array.from(layers, (layer) =>
            cFromSp(layer.salinity, layer.temperature_C, layer.pressure_dbar),
          ),
        },
        others: {},
      },
    };
    const bottles = stops_dbar.slice(1).map((p, i): Bottle => {
      return { cast: "001", bottle: String(i + 1), pressure_dbar: p, salinity: column(p).salinity };
    });
    for (const [i, value] of valuesOf(bottles, cast).entries()) {
      // A dbar of its salinity gradient, 1.3 / 400 e^(-p / 400), at 26 ppm for 0.001; no pressure error beside.
      const gradient = (1.3 / 400) * Math.exp(-bottles[i]!.pressure_dbar / 400);
      expect(Math.abs(value)).toBeLessThan(27e3 * gradient + 0.5);
    }
  });
});
