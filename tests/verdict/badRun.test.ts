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

/** A cruise with six bottles on each cast. `error` is the error in salinity of all samples of a cast. */
function smallCasts(seed: number, run: (cast: number) => string, error: (cast: number) => number) {
  const { cruise, truth } = simulateCruise({
    seed,
    casts: 12,
    cells: ["primary"],
    deepest_dbar: 2500,
    bottles: 6,
    events: [],
  });
  const bottles = cruise.bottles.map((bottle) => ({
    ...bottle,
    run: run(Number(bottle.cast)),
    salinity: bottle.salinity + error(Number(bottle.cast)),
  }));
  return assessCruise({ ...cruise, bottles }).casts.map(({ cells }, i) => {
    const { advice, gainError } = cells.primary!;
    return { advice, gainError: gainError.up, true_ppm: truth[i]!.cells.primary!.gain.up };
  });
}

test.each([1, 2, 3, 4])(
  "a run of eight small casts, all salty by 0.004 under one label, leads to no deep clean (seed %i)",
  (seed) => {
    const isBad = (cast: number) => cast > 2 && cast <= 10;
    const run = (cast: number) => (isBad(cast) ? "b" : cast <= 2 ? "a" : "c");
    for (const { advice, gainError, true_ppm } of smallCasts(seed, run, (cast) =>
      isBad(cast) ? 0.004 : 0,
    )) {
      expect(advice.deepClean).toBe(false);
      const [least, most] = gainError.interval95;
      expect(least).toBeLessThan(true_ppm);
      expect(most).toBeGreaterThan(true_ppm);
    }
  },
);

test.each([1, 2, 3, 4])(
  "if the whole cruise has one label, three casts with samples fresh by 0.0025 are forgotten nine casts later (seed %i)",
  (seed) => {
    const casts = smallCasts(
      seed,
      () => "salinometer",
      (cast) => (cast <= 3 ? -0.0025 : 0),
    );
    const { gainError, true_ppm } = casts.at(-1)!;
    // Half the target of 0.002 is 25 ppm.
    expect(Math.abs(gainError.ppm - true_ppm)).toBeLessThan(25);
  },
);
