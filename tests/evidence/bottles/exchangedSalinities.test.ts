// Labels of two casts exchanged, on an invented cruise of bottles with the readings of a cell at their closures.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Bottle } from "../../../src/cast/bottle.js";
import type { Cruise } from "../../../src/cast/cruise.js";
import { assessCruise } from "../../../src/verdict/assessCruise.js";
import { seeded } from "../seeded.js";
import { column, reading } from "./closures.js";

const gain_ppm = -20;
const pressures = [3000, 2500, 2000, 1500, 1200, 1000, 800, 600, 400, 200, 100, 20];
/** Depth of each station beside the first. */
const depths = [1, 0.9, 0.6, 1.1];

/** @param salinityFrom the cast whose samples stand under the label of a cast */
function cruiseOf(seed: number, salinityFrom: (cast: number) => number): Cruise {
  const { normal } = seeded(seed);
  const samples = depths.map((depth) =>
    pressures.map((p) => {
      const closure = column(p * depth);
      return { closure, salinity: closure.salinity + 0.0008 * normal() };
    }),
  );
  const bottles = samples.flatMap((own, i) =>
    own.map(
      ({ closure }, k): Bottle => ({
        cast: `00${i + 1}`,
        bottle: String(k + 1),
        pressure_dbar: closure.pressure_dbar,
        salinity: samples[salinityFrom(i)]![k]!.salinity,
        ctd: { primary: reading(closure, gain_ppm) },
      }),
    ),
  );
  return {
    name: "exchanged labels (invented)",
    target: 0.002,
    instrument: { cells: ["primary"] },
    casts: depths.map((_, i) => ({ id: `00${i + 1}`, start: `2021-05-0${i + 1}T06:00:00Z` })),
    bottles,
    maintenance: [],
    inputs: [],
  };
}

const named = /casts 002 and 003 each follow the CTD of the other cast: labels exchanged/;

describe("salinities of two casts with exchanged labels", () => {
  it("are named on the later cast, are not used, and make no film", () => {
    const other = new Map([
      [1, 2],
      [2, 1],
    ]);
    for (const seed of [1, 2]) {
      const { casts } = assessCruise(cruiseOf(seed, (cast) => other.get(cast) ?? cast));
      expect(casts[2]!.notes.join()).toMatch(named);
      for (const { cells } of casts.slice(1)) {
        const { gainError, causes, advice } = cells.primary!;
        expect(Math.abs(gainError.up.ppm - gain_ppm)).toBeLessThan(40);
        expect(causes[0]!.cause).not.toBe("fouling");
        expect(advice.intensity).toBe("rinse");
      }
    }
  });

  it("are not reported where each cast has its own, or one cast has the samples of another", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), fc.boolean(), (seed, isCopied) => {
        const { casts } = assessCruise(
          cruiseOf(seed, (cast) => (isCopied && cast === 2 ? 1 : cast)),
        );
        for (const { notes } of casts) expect(notes.join()).not.toMatch(/labels exchanged/);
      }),
      { numRuns: 4, seed: 5 },
    );
  });
});
