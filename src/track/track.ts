// The cell through the cruise: a multi-process filter [HarrisonStevens1976] over casts. Hypotheses about
// what happened carry a Gaussian each; at every cast the causes propose what may be new, the evidence
// weighs the proposals, and the most probable are followed.

import type { CellName } from "../cast/cast.js";
import type { IntensityName, MaintenanceEvent } from "../cast/maintenance.js";
import type { RecoveryPrior } from "../cleaning/recovery.js";
import { wakeDepth_dbar } from "../evidence/bottleNoise.js";
import type { Observation, Onset } from "../evidence/evidence.js";
import { begin } from "./beginning.js";
import { maintain, passTime } from "./betweenCasts.js";
import { certainZero, redraw } from "./gaussian.js";
import { gather, type Hypothesis } from "./hypothesis.js";
import { propose } from "./propose.js";
import { layoutFor, sharedIndex } from "./state.js";

/** A cast as the tracker sees it. */
export interface TrackedInput {
  readonly cast: string;
  /** ISO 8601 UTC; absent where not known. */
  readonly start?: string;
  readonly observations: readonly Observation[];
  readonly onsets: Readonly<Partial<Record<CellName, Onset>>>;
  /** The laboratory run of its bottles. */
  readonly run?: string;
  /** What the record says was done after it and before the next. */
  readonly maintenanceAfter: readonly MaintenanceEvent[];
}

/** What is held after a cast: hypotheses with weights that sum to one. */
export interface TrackedCast {
  readonly cast: string;
  readonly hypotheses: readonly Hypothesis[];
  /** The same after what the record says was done since. */
  readonly now: readonly Hypothesis[];
}

/** Where times are not written, casts are taken to be this far apart, days (common practice, no source). */
const usualInterval_days = 0.5;

/**
 * Follow the cells through a cruise, each cast given only what came before it and its own evidence.
 * @param cells    cells of the package
 * @param inputs   casts in order of time
 * @param recovery what each intensity of cleaning leaves of a film
 */
export function track(
  cells: readonly CellName[],
  inputs: readonly TrackedInput[],
  recovery: Readonly<Record<IntensityName, RecoveryPrior>>,
): readonly TrackedCast[] {
  const layout = layoutFor(cells);
  const first = { cast: inputs[0]?.cast ?? "", when: "from the start" } as const;
  const state = certainZero(layout.size);
  redraw(state, sharedIndex(layout, "wake"), wakeDepth_dbar.mean, wakeDepth_dbar.sd ** 2);
  const beginning: readonly Hypothesis[] = [{ logWeight: 0, state, story: { cells: {} } }];
  let held = gather(cells.reduce((all, cell) => begin(layout, all, cell, first), beginning));
  const tracked: TrackedCast[] = [];
  let castsSinceEvidence = 1;
  let before: TrackedInput | undefined;
  for (const input of inputs) {
    const days = daysBetween(before, input);
    const sameRun = input.run !== undefined && input.run === before?.run;
    held = gather(held.map((hypothesis) => passTime(layout, hypothesis, days, sameRun)));
    if (input.observations.length > 0) {
      held = gather(propose(layout, held, input, castsSinceEvidence));
      castsSinceEvidence = 1;
    } else {
      castsSinceEvidence++;
    }
    const now = input.maintenanceAfter.reduce(
      (all, event) => gather(maintain(layout, all, event, input.cast, recovery)),
      held,
    );
    tracked.push({ cast: input.cast, hypotheses: held, now });
    held = now;
    before = input;
  }
  return tracked;
}

/** Days from one cast to the next; 0 before the first, the usual where times are not written. */
export function daysBetween(before: TrackedInput | undefined, next: TrackedInput): number {
  if (before === undefined) return 0;
  const from = Date.parse(before.start ?? "");
  const to = Date.parse(next.start ?? "");
  return to > from ? (to - from) / 86_400_000 : usualInterval_days;
}
