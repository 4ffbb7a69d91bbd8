// Deep water that has been quiet for eight casts tells which of two cells has changed, before any bottle is measured: if the
// first cell reads saltier and the water does not, no film came into the second.
import { expect, test } from "vitest";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const casts = 9;

test("a salty shift of one cell over quiet deep water is mostly no film in the other", () => {
  const films = [1, 2, 3, 4].map((seed) => {
    const { cruise } = simulateCruise({
      seed,
      casts,
      cells: ["primary", "secondary"],
      deepest_dbar: 1800,
      bottles: 8,
      events: [{ kind: "calibration-shift", cell: "primary", fromCast: casts, ppm: 90 }],
    });
    const unmeasured = cruise.casts.slice(-2).map(({ id }) => id);
    const bottles = cruise.bottles.map((bottle) =>
      unmeasured.includes(bottle.cast) ? { ...bottle, salinity: Number.NaN } : bottle,
    );
    const { cells } = assessCruise({ ...cruise, bottles }).casts.at(-1)!;
    const fouling = cells.secondary!.causes.find(({ cause }) => cause === "fouling");
    return fouling?.probability ?? 0;
  });
  expect(films.reduce((sum, film) => sum + film, 0) / films.length).toBeLessThan(0.5);
});
