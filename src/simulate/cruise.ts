// A whole simulated cruise, with the truth for comparison with a verdict.
// Numbers without a source are judgement: an invented place and date.
import type { Cruise } from "../cast/cruise.js";
import { defaultTarget } from "../cast/cruise.js";
import { simulateBottles } from "./bottles.js";
import { simulateCast } from "./cast.js";
import { completed } from "./completed.js";
import { maintenanceOf } from "./maintenance.js";
import { castId, type Scenario } from "./scenario.js";
import { type Truth, truthOf } from "./truth.js";
import { waterOf } from "./water.js";

export interface SimulatedCruise {
  readonly cruise: Cruise;
  readonly truth: Truth;
}

/** An invented date and place: the middle of no sea in particular. */
const firstStart = Date.UTC(2021, 4, 3, 6);
const track = { latitude: -31, longitude: 0, latitudeStep: -0.25, longitudeStep: 0.5 };
const invented =
  "This cruise is invented: ship, sea, water and readings were simulated, and no real place is meant.";

/**
 * Simulate a cruise. The same scenario gives the same cruise, to the last digit; a changed event does not change the noise
 * of anything else.
 * @throws BadInput if a field of the scenario is misspelt or missing, RangeError if a value is impossible
 */
export function simulateCruise(scenario: Scenario): SimulatedCruise {
  const complete = completed(scenario);
  const truth = truthOf(scenario);
  const startOf = (cast: number) =>
    `${new Date(firstStart + (cast - 1) * complete.hoursBetweenCasts * 3_600_000).toISOString().slice(0, 19)}Z`;
  const simulated = truth.map((own, i) => {
    const cast = i + 1;
    const water = waterOf(complete, cast);
    const about = {
      start: startOf(cast),
      latitude: track.latitude + i * track.latitudeStep,
      longitude: track.longitude + i * track.longitudeStep,
    };
    const data = simulateCast(complete, cast, water, own, about);
    return {
      cast: { id: castId(cast), ...about, data },
      bottles: simulateBottles(complete, cast, water, own),
    };
  });
  const { sampling } = complete;
  return {
    cruise: {
      name: complete.name,
      note: invented,
      casts: simulated.map(({ cast }) => cast),
      bottles: simulated.flatMap(({ bottles }) => bottles),
      maintenance: maintenanceOf(complete, truth, startOf),
      instrument: {
        cells: complete.cells,
        flow: "pumped",
        ...(sampling.kind === "time-series" ? { sampleRate_Hz: sampling.rate_Hz } : {}),
      },
      target: defaultTarget,
      nextStation: { time: startOf(complete.casts + 1) },
      inputs: [],
    },
    truth,
  };
}
