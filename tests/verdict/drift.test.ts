// A clean gain that drifts by the same amount from cast to cast (amount: judgement).
import { expect, test } from "vitest";
import { type SimulatedEvent, simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const casts = 12;
const perCast_ppm = 12;
const drift: readonly SimulatedEvent[] = Array.from({ length: casts - 1 }, (_, i) => ({
  kind: "calibration-shift",
  cell: "secondary",
  fromCast: i + 2,
  ppm: perCast_ppm,
}));

test.each([1, 2, 3])(
  "a cell that drifts to salty is off, and the other is not fouled (seed %i)",
  (seed) => {
    const { cruise, truth } = simulateCruise({
      seed,
      casts,
      deepest_dbar: 1500,
      bottles: 8,
      cells: ["primary", "secondary"],
      events: drift,
    });
    const { cells, advice } = assessCruise(cruise).casts.at(-1)!;
    for (const name of ["primary", "secondary"] as const) {
      const { ppm, standardUncertainty } = cells[name]!.gainError.up;
      const error = Math.abs(ppm - truth.at(-1)!.cells[name]!.gain.up);
      expect(error).toBeLessThan(3 * standardUncertainty);
      expect(error).toBeLessThan(30);
    }
    expect(cells.secondary!.causes[0]!.cause).toBe("calibration-shift");
    expect(cells.primary!.causes[0]!.cause).toBe("sound");
    expect(advice.intensity).toBe("rinse");
  },
);

test.each([1, 2, 3])(
  "a single cell that drifts by 2.6 ppm a day, as one of a published cruise [CruiseReports2022], is followed (seed %i)",
  (seed) => {
    const days = 24;
    const { cruise, truth } = simulateCruise({
      seed,
      casts: days,
      hoursBetweenCasts: 24,
      deepest_dbar: 2500,
      bottles: 12,
      cells: ["primary"],
      events: Array.from({ length: days - 1 }, (_, i) => ({
        kind: "calibration-shift",
        cell: "primary",
        fromCast: i + 2,
        ppm: 2.6,
      })),
    });
    const errors = assessCruise(cruise).casts.map(({ cells }, i) =>
      Math.abs(cells.primary!.gainError.up.ppm - truth[i]!.cells.primary!.gain.up),
    );
    expect(Math.max(...errors.slice(days / 2))).toBeLessThan(30);
  },
);
