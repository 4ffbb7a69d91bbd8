// A cell may read low for a part of a cast only, without any film: bubbles near the surface, ice that melts on the way down
// (sizes: judgement). The cast is simulated; the cell is sound otherwise.
import { expect, test } from "vitest";
import type { Cruise } from "../../src/cast/cruise.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

/** Two sound cells at 4 Hz to 1500 dbar; the primary reads low by this share where `low` says so. */
function cruiseWith(share: number, low: (pressure: number, isUp: boolean) => boolean): Cruise {
  const { cruise } = simulateCruise({
    seed: 5,
    casts: 2,
    cells: ["primary", "secondary"],
    deepest_dbar: 1500,
    bottles: 8,
    sampling: { kind: "time-series", rate_Hz: 4 },
  });
  const columns = cruise.casts.at(-1)!.data!.columns;
  const { pressure_dbar: pressure, primary } = columns;
  const turn = pressure.indexOf(pressure.reduce((most, p) => Math.max(most, p), 0));
  const { conductivity_mS_cm } = primary;
  for (let i = 0; i < pressure.length; i++) {
    if (low(pressure[i]!, i > turn)) conductivity_mS_cm[i]! *= 1 - share;
  }
  return cruise;
}

/** The verdict on the last cast. */
function lastOf(cruise: Cruise) {
  const { cells, advice } = assessCruise(cruise).casts.at(-1)!;
  return { advice, of: (cell: "primary" | "secondary") => cells[cell]! };
}

test("bubbles in one cell above 8 dbar on the way up are no film", () => {
  const { advice, of } = lastOf(cruiseWith(0.004, (p, isUp) => isUp && p < 8));
  expect(advice.intensity).toBe("rinse");
  for (const cell of ["primary", "secondary"] as const) {
    expect(of(cell).causes[0]!.cause).not.toBe("fouling");
    expect(Math.abs(of(cell).gainError.up.ppm)).toBeLessThan(60);
  }
});

test("ice in one cell that melts at 250 dbar on the way down is a transient, and leaves no film", () => {
  const { advice, of } = lastOf(cruiseWith(0.003, (p, isUp) => !isUp && p < 250));
  expect(advice.intensity).toBe("rinse");
  expect(of("primary").causes[0]!.cause).toBe("transient");
  expect(of("secondary").causes[0]!.cause).not.toBe("fouling");
  for (const cell of ["primary", "secondary"] as const) {
    expect(Math.abs(of(cell).gainError.up.ppm)).toBeLessThan(60);
  }
});
