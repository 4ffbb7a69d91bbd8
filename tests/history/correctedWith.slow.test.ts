// Corrections after a cruise that begins with the histories of its cells (seeds 1 to 6). Ships, cells and waters are
// invented, their true gains known.
import { describe, expect, it } from "vitest";
import { type CruiseCorrection, correctCruise } from "../../src/index.js";
import { thirdOf, unmeasured } from "./shipOverYears.js";

const cells = ["primary", "secondary"] as const;
const ships = [1, 2, 3, 4, 5, 6].map((seed) => thirdOf({ seed, days: 200, walk: 0.5, casts: 2 }));

/** Gain error on the last up leg, found less true, ppm. */
const errorsOf = ({ casts }: CruiseCorrection, { clean }: (typeof ships)[number]) =>
  cells.map((cell) => casts.at(-1)!.cells[cell]!.up.surface.ppm - clean[cell]);
const rootMeanSquare = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length);

describe("a correction that begins with the history of the cells", () => {
  it("a correction with history is nearer to the truth without bottles, and names the history", () => {
    const [withIt, without] = [true, false].map((known) =>
      ships.flatMap((ship) => {
        const history = known ? ship.history : [];
        const correction = correctCruise(unmeasured(ship.cruise), { history });
        expect(correction.notes?.length).toBe(known ? 2 : undefined);
        return errorsOf(correction, ship);
      }),
    );
    expect(rootMeanSquare(withIt!)).toBeLessThan(0.6 * rootMeanSquare(without!));
  });

  it("a correction with history is not worse with measured bottles", () => {
    const [withIt, without] = [true, false].map((known) =>
      ships.flatMap((ship) =>
        errorsOf(correctCruise(ship.cruise, { history: known ? ship.history : [] }), ship),
      ),
    );
    expect(rootMeanSquare(withIt!)).toBeLessThan(1.1 * rootMeanSquare(without!));
  });
});
