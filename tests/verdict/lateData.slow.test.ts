import { describe, expect, it } from "vitest";
import type { Cruise } from "../../src/cast/cruise.js";
import { assembleCruise } from "../../src/read/assembleCruise.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { correctCruise } from "../../src/verdict/correctCruise.js";

const scenario = {
  seed: 8,
  casts: 8,
  deepest_dbar: 1500,
  events: [{ kind: "film-step", cells: ["primary"], cast: 4, at: "before-cast", ppm: -220 }],
} as const;
const { cruise, truth } = simulateCruise(scenario);
const gainsOf = (some: Cruise) =>
  assessCruise(some).casts.map(({ cast, cells }) => [cast, cells.primary!.gainError.up] as const);
const whole = gainsOf(cruise);

describe("data that come late or in no order", () => {
  it("late bottles change the verdicts on their cast and later ones, never on earlier ones", () => {
    const late = "005";
    const without = gainsOf({
      ...cruise,
      bottles: cruise.bottles.map((b) => (b.cast === late ? { ...b, salinity: Number.NaN } : b)),
    });
    const order = cruise.casts.map(({ id }) => id);
    for (const [i, [cast, gain]] of whole.entries()) {
      const before = without[i]![1];
      if (i < order.indexOf(late)) expect(before, cast).toEqual(gain);
    }
    const at = order.indexOf(late);
    expect(whole[at]![1].standardUncertainty).toBeLessThan(without[at]![1].standardUncertainty);
  });

  it("casts named in any order are assessed in the order of their times", () => {
    const { casts, bottles, maintenance, instrument } = cruise;
    const assembled = (some: typeof casts) =>
      assembleCruise({
        name: "in any order",
        casts: some.map(({ data, ...about }) => ({
          ...about,
          ...(data === undefined ? {} : { data }),
        })),
        bottles,
        maintenance,
        instrument,
        inputs: [],
      });
    const shuffled = [...casts.slice(3), ...casts.slice(0, 3)].reverse();
    expect(assembled(shuffled).casts.map(({ id }) => id)).toEqual(casts.map(({ id }) => id));
    expect(gainsOf(assembled(shuffled))).toEqual(gainsOf(assembled(casts)));
  });

  it("later casts do not change a verdict", () => {
    const half: Cruise = { ...cruise, casts: cruise.casts.slice(0, 5) };
    for (const [i, [cast, gain]] of gainsOf(half).entries()) {
      expect([cast, gain]).toEqual(whole[i]);
    }
  });

  it("a correction uses past and future: the whole cruise reduces the uncertainty of a cast", () => {
    const corrected = correctCruise(cruise).casts;
    const narrower = corrected.filter(
      ({ cells }, i) =>
        cells.primary!.up.surface.standardUncertainty < whole[i]![1].standardUncertainty,
    );
    expect(narrower.length).toBeGreaterThanOrEqual(6);
    for (const [i, { cells }] of corrected.entries()) {
      const { ppm, standardUncertainty } = cells.primary!.up.surface;
      const off = Math.abs(ppm - truth[i]!.cells.primary!.gain.up);
      expect(off, cells.toString()).toBeLessThan(4 * standardUncertainty);
    }
  });
});

describe("work on the cell in mid-cruise", () => {
  const old = simulateCruise({
    seed: 21,
    casts: 8,
    deepest_dbar: 1500,
    cells: ["primary"],
    events: [
      { kind: "calibration-shift", cell: "primary", fromCast: 1, ppm: 180 },
      { kind: "calibration-shift", cell: "primary", fromCast: 5, ppm: -180 },
    ],
  });

  it.each(["exchange", "calibration"] as const)(
    "after %s the estimates of the cell start again",
    (action) => {
      const told: Cruise = { ...old.cruise, maintenance: [{ action, afterCast: "004" }] };
      const { casts } = assessCruise(told);
      const [before, after] = [casts[3]!.cells.primary!, casts[5]!.cells.primary!];
      expect(before.causes[0]!.cause).toBe("calibration-shift");
      expect(Math.abs(before.cleanGain.ppm - 180)).toBeLessThan(60);
      // The new cell, or the new coefficients, are near zero, and nothing of the old gain is held against them.
      expect(after.causes[0]!.cause).toBe("sound");
      expect(Math.abs(after.gainError.up.ppm)).toBeLessThan(40);
    },
  );

  it("a change without a record entry is found in the gain, and its cause stays open", () => {
    const last = assessCruise(old.cruise).casts.at(-1)!.cells.primary!;
    expect(Math.abs(last.gainError.up.ppm)).toBeLessThan(60);
    // That it ends just where a good calibration is speaks for one, and a film of just that size looks the same.
    const probability = (name: string) =>
      last.causes.find(({ cause }) => cause === name)?.probability ?? 0;
    expect(probability("fouling")).toBeLessThan(0.9);
    expect(probability("sound")).toBeGreaterThan(0.15);
  });
});
