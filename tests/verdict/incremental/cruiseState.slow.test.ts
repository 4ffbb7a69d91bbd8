import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { assessCruise } from "../../../src/verdict/assessCruise.js";
import { documentOf } from "../../../src/verdict/incremental/cruiseState.js";
import { openCruise } from "../../../src/verdict/incremental/openCruise.js";
import { readState, writeState } from "../../../src/verdict/incremental/stateText.js";
import { type Arrival, arrivalsOf, type Model } from "./arrivals.js";

const { afterStep, opening, wholeOf } = arrivalsOf(["primary", "secondary"]);

/** Every cast once in any order; the bottles of each after it; the record at any time. */
const arrivals = fc
  .tuple(
    fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 }),
    fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
    fc.array(fc.nat({ max: 8 }), { minLength: 5, maxLength: 5 }),
    fc.array(fc.boolean(), { minLength: 9, maxLength: 9 }),
  )
  .map(([order, listed, places, putAway]) => {
    const steps: Arrival[] = order.map((at) => ({ kind: "cast", at, listed: listed[at]! }));
    for (const [at, place] of places.slice(0, 4).entries()) {
      const cast = steps.findIndex((step) => step.kind === "cast" && step.at === at);
      steps.splice(Math.max(cast + 1, Math.min(place, steps.length)), 0, { kind: "bottles", at });
    }
    steps.splice(Math.min(places[4]!, steps.length), 0, { kind: "record" });
    return { steps, putAway };
  });

describe("a cruise that is assessed cast by cast", () => {
  it("a cruise added cast by cast has the verdicts of assessCruise to the last digit, for late and unordered data", () => {
    fc.assert(
      fc.property(arrivals, ({ steps, putAway }) => {
        let state = openCruise(opening);
        let model: Model = { casts: [], bottles: [], maintenance: [] };
        for (const [i, step] of steps.entries()) {
          ({ state, model } = afterStep(state, model, step));
          if (putAway[i]) state = readState(writeState(state));
        }
        expect(documentOf(state)).toEqual(assessCruise(wholeOf(model)));
      }),
      { seed: 4, numRuns: 6 },
    );
  });
});
