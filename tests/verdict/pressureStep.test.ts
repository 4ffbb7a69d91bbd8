// A pressure response that comes in mid-cruise, as by a crack of the cell (rare; size as published cells have it from the start
// [CruiseReports2021]). The pair and the bottles show an error of one cell that grows with depth.
import { expect, test } from "vitest";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

test.each([1, 2, 3])(
  "an error that grows with pressure from cast 4 on is named, with its cell and its onset (seed %i)",
  (seed) => {
    const [comes, perDbar] = [4, 50e-9];
    const cells = ["primary", "secondary"] as const;
    const { cruise, truth } = simulateCruise({
      seed,
      casts: 7,
      deepest_dbar: 2500,
      bottles: 12,
      cells,
    });
    for (const { data } of cruise.casts.slice(comes - 1)) {
      const { pressure_dbar, primary } = data!.columns;
      pressure_dbar.forEach((p, i) => {
        primary.conductivity_mS_cm[i]! *= 1 + p * perDbar;
      });
    }
    const bottles = cruise.bottles.map(({ ctd, ...bottle }) => bottle);
    const { casts } = assessCruise({ ...cruise, bottles });
    const { primary, secondary } = casts.at(-1)!.cells;
    const own = truth.at(-1)!.cells.primary!;
    expect(primary!.causes[0]!.cause).toBe("pressure-response");
    expect(secondary!.causes[0]!.cause).toBe("sound");
    expect(primary!.change).toMatchObject({ kind: "step", sinceCast: "004" });
    expect(
      Math.abs(primary!.pressureResponse.ppmPer1000dbar - own.pressureResponse - perDbar * 1e9),
    ).toBeLessThan(15);
    expect(Math.abs(primary!.gainError.up.ppm - own.gain.up)).toBeLessThan(45);
  },
);
