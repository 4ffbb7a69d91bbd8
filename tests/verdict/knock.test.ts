// A knock in mid-cruise moves the calibration of a cell by much more than two healthy cells differ (size: judgement). Most of
// the water with bottles is nearly uniform in temperature, where a thermometer that is 16 mK off looks the same.
import { expect, test } from "vitest";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const bottlePressures_dbar = [2000, 1800, 1600, 1400, 1200, 1000, 800, 10];
const knock = { kind: "calibration-shift", cell: "primary", fromCast: 5, ppm: 400 } as const;

test.each([3, 4])(
  "a knock of +400 ppm in mid-cruise is a calibration shift, known within 50 ppm (seed %i)",
  (seed) => {
    const { cruise, truth } = simulateCruise({
      seed,
      casts: 10,
      cells: ["primary"],
      bottlePressures_dbar,
      events: [knock],
    });
    const verdicts = assessCruise(cruise).casts.slice(knock.fromCast - 1);
    expect(verdicts.length).toBe(6);
    // Of one size, 130 ppm, it was told 100 and 175 ppm too small on the first cast after it.
    verdicts.forEach(({ cells }, i) => {
      const { causes, gainError } = cells.primary!;
      const true_ppm = truth[knock.fromCast - 1 + i]!.cells.primary!.gain.up;
      expect(causes[0]!.cause).toBe("calibration-shift");
      expect(Math.abs(gainError.up.ppm - true_ppm)).toBeLessThan(50);
    });
  },
);
