// The bottles that were standardised together. A run is a day's work at the salinometer. A label used for a whole cruise
// names the cruise or its batch of standard seawater; then it is not known which casts were measured together.
import { group, rollup } from "d3-array";
import type { Bottle } from "../../cast/bottle.js";
import type { ErrorEvolution } from "../../model/sharedError.js";

/**
 * A run between two standardisations has up to 72 samples of one or two casts [CruiseReports2021]. A label with more than
 * twice as many samples is no run. If a cruise has only one label, and on more than twice as many casts, the label is no run
 * either (judgement). If it has others, a label may be on many casts with few bottles.
 */
const mostSamples = 144;
const mostCasts = 4;

/** The same bottles, without labels that cannot be those of runs. */
export function withLaboratoryRuns(bottles: readonly Bottle[]): readonly Bottle[] {
  const labelled = measuredOf(bottles).filter(({ run }) => run !== undefined);
  const byRun = group(labelled, ({ run }) => run);
  const casts = group(labelled, ({ cast }) => cast).size;
  const most = byRun.size === 1 && casts > mostCasts ? 0 : mostSamples;
  return bottles.map((bottle) => {
    const { run, ...rest } = bottle;
    return (byRun.get(run)?.length ?? 0) > most ? rest : bottle;
  });
}

/** The run of the latest measured cast: its label, one without a label, or none if no cast was measured yet. */
export type RunBefore = { readonly label: string } | "unlabelled" | "none";

/**
 * Without labels it is unknown whether two casts were measured together. A run has the samples of one or two casts, so about
 * half of its error stays from one cast to the next (judgement).
 */
const keptWithoutLabel = 0.5;

/**
 * The laboratory run of a cast, and how the error of the run passes to it from the cast before; undefined if it is new.
 * A cast without measured samples changes nothing.
 */
export function passToCast(
  before: RunBefore,
  bottles: readonly Bottle[],
): { readonly run: RunBefore; readonly passed?: ErrorEvolution } {
  if (measuredOf(bottles).length === 0)
    return before === "none" ? { run: before } : { run: before, passed: { kind: "constant" } };
  const label = runOfCast(bottles);
  if (label === undefined) {
    const run = "unlabelled" as const;
    return before === run
      ? { run, passed: { kind: "partly-new", kept: keptWithoutLabel } }
      : { run };
  }
  const run = { label };
  const same = typeof before === "object" && before.label === label;
  return same ? { run, passed: { kind: "constant" } } : { run };
}

function measuredOf(bottles: readonly Bottle[]): readonly Bottle[] {
  return bottles.filter(({ salinity }) => Number.isFinite(salinity));
}

/** The run of most of a cast's measured bottles; undefined if most have none. */
export function runOfCast(bottles: readonly Bottle[]): string | undefined {
  const counts = rollup(
    measuredOf(bottles),
    (own) => own.length,
    ({ run }) => run,
  );
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
}
