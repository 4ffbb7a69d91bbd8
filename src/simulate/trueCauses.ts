// The true causes for a cell on a cast, in the order in which a verdict should name them: first faults of the cell, then of
// its thermometer and plumbing, then of the references, then the water.
import type { CellName } from "../cast/cast.js";
import type { CauseName } from "../causes/index.js";
import type { CellTruth } from "./cellTruth.js";
import type { SimulatedEvent } from "./events.js";
import { type CompleteScenario, runOf } from "./scenario.js";

/**
 * Smaller errors are ignored. A clean gain of 51 ppm is 0.002 in salinity, the required accuracy of a cruise
 * [McTaggartEtAl2010], a film of 25 ppm half of it; 20 ppm per 1000 dbar is that at 2500 dbar. 2 mK is 0.002 as well.
 */
export const leastNamed = {
  film_ppm: 25,
  cleanGain_ppm: 51,
  pressureResponse: 20,
  temperature_mK: 2,
  thermalLagFactor: 2,
  reference: 0.002,
};

type Known = Omit<CellTruth, "causes" | "cause">;

export function trueCauses(
  scenario: CompleteScenario,
  cell: CellName,
  cast: number,
  known: Known,
): readonly CauseName[] {
  const here = scenario.events.filter((event) => !("cast" in event) || event.cast === cast);
  const has = (holds: (event: SimulatedEvent) => boolean) => here.some(holds);
  const named: readonly (readonly [CauseName, boolean])[] = [
    ["fouling", Math.min(known.film.down, remaining(known)) < -leastNamed.film_ppm],
    [
      "transient",
      known.within.some(
        ({ ppm, recovery_dbar }) => recovery_dbar !== undefined && ppm < -leastNamed.film_ppm,
      ),
    ],
    ["calibration-shift", Math.abs(known.cleanGain_ppm) > leastNamed.cleanGain_ppm],
    ["pressure-response", Math.abs(known.pressureResponse) > leastNamed.pressureResponse],
    ["temperature-error", Math.abs(known.temperatureError_mK) >= leastNamed.temperature_mK],
    ["flow", has((event) => event.kind === "flow-loss" && event.cells.includes(cell))],
    [
      "thermal-lag",
      has(
        (event) =>
          event.kind === "thermal-lag" &&
          event.cells.includes(cell) &&
          event.factor >= leastNamed.thermalLagFactor,
      ),
    ],
    ["reference-error", Math.abs(referenceOffset(scenario, cast)) >= leastNamed.reference],
    ["water", has((event) => event.kind === "front")],
  ];
  const causes = named.flatMap(([cause, holds]) => (holds ? [cause] : []));
  return causes.length > 0 ? causes : ["sound"];
}

/** Error of the laboratory on this cast's bottles, without its ordinary errors, PSS-78. */
export function referenceOffset(scenario: CompleteScenario, cast: number): number {
  const run = runOf(scenario, cast);
  return scenario.events.reduce((sum, event) => {
    if (event.kind !== "reference-offset") return sum;
    const ours = typeof event.of === "string" ? event.of === run : event.of.includes(cast);
    return ours ? sum + event.salinity : sum;
  }, 0);
}

/** The film that is still there after the cast, ppm: the rest of a transient is shed. */
function remaining({ film, within }: Known): number {
  return within.reduce(
    (sum, { ppm, recovery_dbar }) => (recovery_dbar === undefined ? sum + ppm : sum),
    film.down,
  );
}
