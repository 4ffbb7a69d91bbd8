// Oil at the surface: most of it washes off on the way down, the rest stays as a film (common practice, no source). The pair
// shows an excursion near the surface, and the bottles show what stays.
import { expect, test } from "vitest";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

test("a film that comes on the cast of a transient is a film, and no shift of the calibration", () => {
  const { cruise } = simulateCruise({
    seed: 9,
    casts: 5,
    cells: ["primary", "secondary"],
    deepest_dbar: 1400,
    bottles: 10,
    sampling: { kind: "time-series", rate_Hz: 4 },
    events: [
      { kind: "film-step", cells: ["secondary"], cast: 4, at: "before-cast", ppm: -230 },
      {
        kind: "transient",
        cells: ["secondary"],
        cast: 4,
        at: { leg: "down", pressure_dbar: 30 },
        ppm: -400,
        recovery_dbar: 40,
      },
    ],
  });
  const { casts } = assessCruise(cruise);
  for (const cast of casts.slice(3)) {
    const { causes, advice } = cast.cells.secondary!;
    expect(causes[0]!.cause).toBe("fouling");
    expect(advice.intensity).not.toBe("rinse");
  }
});
