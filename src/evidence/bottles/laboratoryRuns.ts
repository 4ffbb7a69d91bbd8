// The bottles that were standardised together. A run is a day's work at the salinometer. A label used for a whole cruise
// names the cruise or its batch of standard seawater; then each cast has a standardisation of its own.
import { rollup } from "d3-array";
import type { Bottle } from "../../cast/bottle.js";

/**
 * A run between two standardisations has up to 72 samples of one or two casts [CruiseReports2021]. A label with more than
 * twice as many, a long day's work, is no run (judgement).
 */
const mostSamples = 144;

/** The same bottles, without labels that cannot be those of runs. */
export function withLaboratoryRuns(bottles: readonly Bottle[]): readonly Bottle[] {
  const measured = bottles.filter(({ salinity }) => Number.isFinite(salinity));
  const samples = rollup(
    measured,
    (own) => own.length,
    ({ run }) => run,
  );
  return bottles.map((bottle) => {
    const { run, ...rest } = bottle;
    return run === undefined || (samples.get(run) ?? 0) <= mostSamples ? bottle : rest;
  });
}

/** The run of most of a cast's bottles; undefined if most have none. */
export function runOfCast(bottles: readonly Bottle[]): string | undefined {
  const counts = rollup(
    bottles.filter(({ salinity }) => Number.isFinite(salinity)),
    (own) => own.length,
    ({ run }) => run,
  );
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
}
