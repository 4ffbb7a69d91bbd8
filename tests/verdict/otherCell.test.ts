// A cell that is exchanged or calibrated without an entry in the record (common practice, no source, that records have gaps).
import { expect, test } from "vitest";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

test.each([1, 2, 3])(
  "a fouled cell that suddenly reads salty has no film that cancels a shift, and is not cleaned (seed %i)",
  (seed) => {
    const { cruise } = simulateCruise({
      seed,
      casts: 12,
      cells: ["primary"],
      deepest_dbar: 2500,
      bottles: 12,
      events: [
        { kind: "film-step", cells: ["primary"], cast: 4, at: "before-cast", ppm: -110 },
        { kind: "shed", cells: ["primary"], cast: 7, retained: 0 },
        { kind: "calibration-shift", cell: "primary", fromCast: 7, ppm: 75 },
      ],
    });
    for (const { cast, cells } of assessCruise(cruise).casts.slice(7)) {
      const { advice, causes } = cells.primary!;
      expect(["sound", "calibration-shift"], cast).toContain(causes[0]!.cause);
      expect(advice.deepClean, cast).toBe(false);
    }
  },
);
