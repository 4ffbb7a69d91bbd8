// A film that comes into the only cell on the way up, before any bottle of the cast is measured. Invented cruises of known truth.
import { describe, expect, it } from "vitest";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

describe.each([628, 1500])("a film of -300 ppm that comes at %d dbar on the way up", (pressure) => {
  it("is a film of that size, although other water above a front would look the same to one cell", () => {
    for (const seed of [1, 2, 3, 4]) {
      const { cruise, truth } = simulateCruise({
        seed,
        casts: 5,
        cells: ["primary"],
        deepest_dbar: 2500,
        sampling: { kind: "averages", layer_dbar: 5 },
        events: [
          {
            kind: "film-step",
            cells: ["primary"],
            cast: 5,
            at: { leg: "up", pressure_dbar: pressure },
            ppm: -300,
          },
        ],
      });
      const last = cruise.casts.at(-1)!.id;
      const bottles = cruise.bottles.map((bottle) =>
        bottle.cast === last ? { ...bottle, salinity: Number.NaN } : bottle,
      );
      const { causes, gainError } = assessCruise({ ...cruise, bottles }).casts.at(-1)!.cells
        .primary!;
      const real = truth.at(-1)!.cells.primary!.gain.up;
      expect(causes[0]!.cause).toBe("fouling");
      expect(causes[0]!.probability).toBeGreaterThan(0.9);
      expect(Math.abs(gainError.up.ppm - real)).toBeLessThan(60);
    }
  });
});
