import { describe, expect, it } from "vitest";
import { slotRow } from "../../src/model/designRow.js";
import { certainZero, copyOf, redraw, widen } from "../../src/model/gaussian.js";
import type { Hypothesis } from "../../src/model/hypothesis.js";
import { cellIndex } from "../../src/model/layout.js";
import { gainOf, type Observation } from "../../src/model/observation.js";
import { cellView } from "../../src/track/cellView.js";
import { layoutOf } from "../../src/track/layout.js";
import type { TrackedInput } from "../../src/track/tracked.js";
import { lineResiduals } from "../../src/verdict/judge/contradictions.js";

const layout = layoutOf(["primary"]);

/** One hypothesis in which the primary cell's film goes from 0 to `up` ppm within the cast, each known to 5 ppm. */
function filmWithin(up: number): Hypothesis {
  const state = certainZero(layout.size);
  redraw(state, cellIndex(layout, "primary", "filmDown"), 0, 25);
  redraw(state, cellIndex(layout, "primary", "filmUp"), up, 25);
  return { logWeight: 0, state, events: { cells: {} } };
}

/** Bottles and legs at these depths that see what the film makes of them, with errors of 10 ppm. */
function castWith(values: readonly { line: string; ppm: number; dbar: number }[]): TrackedInput {
  const observations = values.map(
    ({ line, ppm, dbar }): Observation => ({
      line,
      cast: "001",
      design:
        line === "legs"
          ? [gainOf("primary", "up"), gainOf("primary", "down", -1)]
          : [gainOf("primary", "up")],
      unit: "ppm",
      value: ppm,
      variance: 100,
      pressure_dbar: dbar,
    }),
  );
  return { cast: "001", observations, onsets: {}, evolutions: {}, maintenanceAfter: [] };
}

describe("the residuals of the lines against the verdict", () => {
  it("bottles that contradict the verdict have residuals beyond four standard deviations", () => {
    const input = castWith([1000, 1500, 2000].map((dbar) => ({ line: "bottles", ppm: 0, dbar })));
    const [bottles] = lineResiduals(layout, [filmWithin(-200)], input, "primary");
    expect(bottles!.residual).toBeCloseTo(200, 9);
    // 200 ppm over sqrt(100 / 3 + 25 + 25), by hand.
    expect(bottles!.standardised).toBeCloseTo(200 / Math.sqrt(100 / 3 + 50), 9);
  });

  it("residuals are small if a film came at a known depth, although the legs agree below it", () => {
    const film = -200;
    const values = [100, 200, 900, 1000].map((dbar) => ({
      line: "legs",
      ppm: dbar < 500 ? film : 0,
      dbar,
    }));
    const seen = { pressure_dbar: 500, standardUncertainty_dbar: 5, probabilityDown: 0.9 };
    const placed = { ...castWith(values), onsets: { primary: seen } };
    const [legs] = lineResiduals(layout, [filmWithin(film)], placed, "primary");
    expect(Math.abs(legs!.standardised)).toBeLessThan(1);
    const [unplaced] = lineResiduals(layout, [filmWithin(film)], castWith(values), "primary");
    expect(Math.abs(unplaced!.standardised)).toBeGreaterThan(4);
  });
});

describe("the error of a reading in given water", () => {
  // 27 ppm of conductivity a mK: dSP/dt -1.0542 over C dSP/dC 32.9166 x 1.1792, derivatives of the GSW reference at SP 34.9,
  // 4 degree C, 1000 dbar.
  const water = { pressure_dbar: 1000, conductivity_mS_cm: 32.9166, temperature_C: 4 };
  const perMillikelvin = (1e3 * -1.0542) / (32.9166 * 1.1792);

  it("the error in given water is the sum of gain, pressure response, thermometer and offset", () => {
    const state = certainZero(layout.size);
    const set = (slot: "clean" | "pressure" | "thermometer" | "offset", mean: number) =>
      redraw(state, cellIndex(layout, "primary", slot), mean, 0);
    set("clean", 10);
    set("pressure", -100);
    set("thermometer", 6);
    set("offset", 2);
    const view = cellView(layout, [{ logWeight: 0, state, events: { cells: {} } }], "primary");
    // An offset of 2 uS/cm is 1e3 x 2 / C, ppm.
    const byHand = 10 - 100 + 6 * perMillikelvin + 2e3 / 32.9166;
    expect(view.errorIn("up", water)[0]!.mean).toBeCloseTo(byHand, 0);
  });

  it("if gain and thermometer cancel in the data, the error in given water is as certain as their sum", () => {
    const state = copyOf(certainZero(layout.size));
    const direction = slotRow(layout, "primary", "thermometer");
    direction[cellIndex(layout, "primary", "clean")] = -perMillikelvin;
    widen(state, direction, 0, 2 ** 2);
    const view = cellView(layout, [{ logWeight: 0, state, events: { cells: {} } }], "primary");
    expect(Math.sqrt(view.gain("up")[0]!.variance)).toBeGreaterThan(50);
    expect(Math.sqrt(view.errorIn("up", water)[0]!.variance)).toBeLessThan(1);
  });
});
