// Water evaporates from all sample bottles of a cruise in storage, so that every sample is too salty by about a hundredth
// (common practice, no source). Two sound cells then seem to have equal films.
import { expect, test } from "vitest";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

test.each([1, 2, 3])(
  "samples that are all too salty are no reason to clean two sound cells (seed %i)",
  (seed) => {
    const { cruise } = simulateCruise({
      seed,
      casts: 5,
      deepest_dbar: 1500,
      bottles: 12,
      cells: ["primary", "secondary"],
      events: [],
    });
    // By 340 ppm of the conductivity, less on later casts, which were stored for a shorter time.
    const bottles = cruise.bottles.map(({ run: _, ...bottle }) => ({
      ...bottle,
      salinity: bottle.salinity + 0.013 - 0.001 * Number(bottle.cast),
    }));
    const [first, ...later] = assessCruise({ ...cruise, bottles }).casts;
    for (const { advice } of [first!, ...later]) expect(advice.deepClean).toBe(false);
    // Films, shifts or bad samples: one cast cannot tell.
    for (const { gainError } of Object.values(first!.cells)) {
      expect(gainError.up.interval95[1]).toBeGreaterThan(0);
    }
  },
);
