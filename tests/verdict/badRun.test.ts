// A laboratory run that was standardised wrongly, over several casts. Files from archives name no runs. The stations of one good
// cruise moved together by 19 ppm [CruiseReports2022]; the size here, six times that, is judgement.
import { expect, test } from "vitest";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

test.each([1, 2, 3, 4])(
  "four casts whose samples are all salty by 0.0045 and then right again are a run of the laboratory, and no film (seed %i)",
  (seed) => {
    const bad = ["006", "007", "008", "009"];
    const { cruise, truth } = simulateCruise({
      seed,
      casts: 13,
      cells: ["primary"],
      deepest_dbar: 2500,
      bottles: 12,
    });
    const bottles = cruise.bottles.map(({ run, ...bottle }) =>
      bad.includes(bottle.cast) ? { ...bottle, salinity: bottle.salinity + 0.0045 } : bottle,
    );
    const { casts } = assessCruise({ ...cruise, bottles });
    for (const [i, { cast, cells }] of casts.entries()) {
      const { advice, causes, gainError } = cells.primary!;
      expect(advice.deepClean, cast).toBe(false);
      if (i < 9) continue;
      // Before, the run counted as new on every cast, and a film that came and went was the simpler explanation.
      expect(causes[0]!.cause, cast).toBe("sound");
      expect(Math.abs(gainError.up.ppm - truth[i]!.cells.primary!.gain.up), cast).toBeLessThan(30);
    }
  },
);
