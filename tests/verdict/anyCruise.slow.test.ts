import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Bottle } from "../../src/cast/bottle.js";
import type { CruiseCast } from "../../src/cast/cruise.js";
import { randomScenario, simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { checkDocument } from "./checkDocument.js";
import { filmStep } from "./filmStep.js";
import { cutAfter, firstCellOnly, untimed } from "./partsOfCruise.js";

describe("a film that came in mid-cast", () => {
  it("a film within a cast is mostly reported as a step on that cast, near its onset pressure", () => {
    const changes = [31, 32, 33, 34, 35, 36].map((seed) => {
      const { cruise } = simulateCruise({ ...filmStep, seed });
      return assessCruise(cruise).casts[3]!.cells.primary!.change;
    });
    const right = changes.filter(
      ({ kind, sinceCast, when, leg, pressure_dbar = 0 }) =>
        kind === "step" &&
        sinceCast === "004" &&
        when === "within" &&
        leg === "down" &&
        Math.abs(pressure_dbar - 500) < 50,
    );
    expect(right.length).toBeGreaterThanOrEqual(4);
  });
});

describe("a verdict on a random cruise", () => {
  it("a verdict on a random cruise uses no later data", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1000 }), fc.nat(), (seed, at) => {
        const drawn = randomScenario(seed);
        const { cruise } = simulateCruise({ ...drawn, deepest_dbar: 1000, bottles: 8 });
        const first = { ...cutAfter(cruise, 7) };
        const count = 1 + (at % 6);
        expect(assessCruise(cutAfter(first, count)).casts).toEqual(
          assessCruise(first).casts.slice(0, count),
        );
      }),
      { numRuns: 4, seed: 7, endOnFailure: true },
    );
  });

  it("a random cruise without some of its parts still has a complete verdict", () => {
    const small = simulateCruise({ seed: 5, casts: 4, deepest_dbar: 400, bottles: 6 }).cruise;
    const keep = fc.array(fc.boolean(), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(keep, keep, keep, keep, fc.boolean(), (data, bottles, times, labs, second) => {
        const kept = (flags: readonly boolean[], id: string) => flags[Number(id) - 1]!;
        const casts = small.casts.map((cast): CruiseCast => {
          const timed = kept(times, cast.id) ? cast : untimed(cast);
          const { data: columns, ...rest } = timed;
          if (!kept(data, cast.id) || columns === undefined) return rest;
          return { ...rest, data: second ? columns : firstCellOnly(columns) };
        });
        const left = small.bottles
          .filter(({ cast }) => kept(bottles, cast))
          .map((bottle): Bottle => {
            const { ctd, ...rest } = bottle;
            const own = kept(labs, bottle.cast) ? bottle.salinity : Number.NaN;
            return kept(data, bottle.cast)
              ? { ...rest, salinity: own }
              : { ...bottle, salinity: own };
          });
        checkDocument(assessCruise({ ...small, casts, bottles: left, instrument: {} }));
      }),
      { numRuns: 12, seed: 8 },
    );
  });
});
