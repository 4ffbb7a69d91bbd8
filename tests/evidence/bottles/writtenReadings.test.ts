// Bottle sheets with the CTD's readings at closure, beside the scans of the cast: as many cruises keep them.
import { describe, expect, it } from "vitest";
import type { Bottle } from "../../../src/cast/bottle.js";
import type { Cast } from "../../../src/cast/cast.js";
import { usualBottleNoise } from "../../../src/evidence/bottles/bottleNoise.js";
import { bottlesEvidence } from "../../../src/evidence/bottles/bottles.js";
import { beforeLeaving_s, standingCast } from "./standingCast.js";

const stops_dbar = [1500, 1000, 700, 400, 200, 80];
/** A cell with three times the usual amplitude [MorisonEtAl1994]. */
const slow = { alpha: 0.0735, tau_s: 9.5 };
/** Seconds before closure over which the sheet gives means (common practice, no source: 5 to 10 s). */
const meanOver_s = 8;

/** The mean of the scans before each closure, written beside the bottle. */
function sheetOf({ columns }: Cast, bottles: readonly Bottle[]): readonly Bottle[] {
  return bottles.map((bottle) => {
    const { time_s, primary } = columns;
    const near = Array.from(time_s!.keys()).filter(
      (i) => time_s![i]! <= bottle.time_s! && time_s![i]! > bottle.time_s! - meanOver_s,
    );
    const mean = (values: Float64Array) => near.reduce((s, i) => s + values[i]!, 0) / near.length;
    const reading = {
      temperature_C: mean(primary!.temperature_C),
      conductivity_mS_cm: mean(primary!.conductivity_mS_cm),
    };
    return { ...bottle, ctd: { primary: reading } };
  });
}

const evidenceOf = (bottles: readonly Bottle[], cast?: Cast) =>
  bottlesEvidence("001", bottles, ["primary"], cast, usualBottleNoise).evidence;

/**
 * Depth in the standard ocean, m, from pressure [UNESCO1983]: coefficients from memory, tested below against its check value.
 */
function depth_m(p: number, latitude: number): number {
  const sine = Math.sin((latitude * Math.PI) / 180) ** 2;
  const gravity = 9.780318 * (1 + (5.2788e-3 + 2.36e-5 * sine) * sine) + 1.092e-6 * p;
  return ((((-1.82e-15 * p + 2.279e-10) * p - 2.2512e-5) * p + 9.72659) * p) / gravity;
}

describe("readings that are written beside the bottles of a cast with scans", () => {
  const { cast, bottles } = standingCast({ stops_dbar, stand_s: 20 + beforeLeaving_s, lag: slow });
  const sheet = sheetOf(cast, bottles);

  it("have the thermal lag of their closure in their uncertainty", () => {
    const { observations } = evidenceOf(sheet, cast);
    const without = evidenceOf(sheet).observations;
    expect(observations).toHaveLength(stops_dbar.length);
    const [deep, shallow] = [observations[0]!, observations.at(-1)!];
    // The deep water changes by a hundredth of a degree on the way to the stop; above 80 dbar there are 3 K in 100 dbar.
    expect(deep.variance).toBeLessThan(1.1 * without[0]!.variance);
    expect(Math.abs(shallow.value)).toBeGreaterThan(30);
    expect(Math.abs(shallow.value)).toBeLessThan(2 * Math.sqrt(shallow.variance));
    expect(shallow.variance).toBeGreaterThan(without.at(-1)!.variance);
  });

  it("are of their closure, whatever its time says", () => {
    const wrong = sheet.map((bottle, i) =>
      i === 2 ? { ...bottle, time_s: bottle.time_s! - 300 } : bottle,
    );
    const { observations, leftOut } = evidenceOf(wrong, cast);
    expect(leftOut).toEqual([]);
    expect(observations.map(({ value }) => value)).toEqual(
      evidenceOf(sheet, cast).observations.map(({ value }) => value),
    );
  });

  it("with depths in metres for pressures give the gain of the pressures, and the sheet is told", () => {
    // The check value of the standard: 10,000 dbar at latitude 30.
    expect(depth_m(10_000, 30)).toBeCloseTo(9712.653, 3);
    const inMetres = sheet.map((bottle) => ({
      ...bottle,
      pressure_dbar: depth_m(bottle.pressure_dbar, 50),
    }));
    const alone = evidenceOf(inMetres).observations[0]!.value;
    // 10 dbar in 1000 at about 14 ppm a dbar: as a pressure response of 140 ppm per 1000 dbar would look.
    expect(alone).toBeGreaterThan(100);
    const beside = evidenceOf(inMetres, cast);
    const right = evidenceOf(sheet, cast);
    for (const [i, { value }] of beside.observations.entries())
      expect(Math.abs(value - right.observations[i]!.value)).toBeLessThan(2);
    expect(beside.notes.join()).toMatch(/depths in metres/);
    expect(right.notes.join()).not.toMatch(/metres/);
  });

  it("with pressures of a gauge whose zero is off are pressures", () => {
    for (const off_dbar of [-2, 2]) {
      const off = sheet.map((bottle) => ({
        ...bottle,
        pressure_dbar: bottle.pressure_dbar + off_dbar,
      }));
      expect(evidenceOf(off, cast).notes.join()).not.toMatch(/metres/);
    }
  });
});
