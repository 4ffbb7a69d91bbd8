// The stored results of a cruise, as plain values. With them, a verdict on a new cast costs the work of one cast.
import type { CellName } from "../../cast/cast.js";
import type { Cruise } from "../../cast/cruise.js";
import type { OutcomeEstimate } from "../../track/cleaningOutcomes.js";
import type { FilmsOfCast } from "../../track/filmEstimates.js";
import type { PastCast } from "../../track/pastCast.js";
import type { FilterState } from "../../track/track.js";
import type { TrackedCast } from "../../track/tracked.js";
import type { AssessmentSettings } from "../assessmentSettings.js";
import type { CastInputs, Memories } from "../gather/observeCast.js";
import type { JudgementInputs } from "../judge/judgementInputs.js";
import type { Verdict } from "../verdict.js";

/** Inputs of all verdicts; a change means that all are computed again. */
export interface About extends Pick<Cruise, "instrument" | "target" | "deepReference"> {
  readonly cells: readonly CellName[];
  readonly settings: Omit<AssessmentSettings, "onCast">;
}

export interface StoredCast {
  readonly inputs: CastInputs;
  readonly judgementInputs: JudgementInputs;
  readonly past: PastCast;
  /** By cell. */
  readonly films: readonly FilmsOfCast[];
  readonly verdict: Verdict;
}

/** The state of the filter and of the lines of evidence after a cast. */
export interface Checkpoint {
  /** Index of the cast. */
  readonly after: number;
  readonly memories: Memories;
  readonly filter: FilterState;
}

export interface StoredCruise {
  readonly about: About;
  /** In order of time. */
  readonly casts: readonly StoredCast[];
  /** Oldest first. */
  readonly checkpoints: readonly Checkpoint[];
  /** The state at the newest cast, which is judged again when a newer one arrives; absent before the first. */
  readonly newest?: TrackedCast;
  /** Estimates of past cleanings, by cell. */
  readonly outcomes: readonly (readonly OutcomeEstimate[])[];
}

/** Number of newest checkpoints kept. The cast that is no longer the newest is judged again, from the checkpoint before it. */
const newest = 2;
/** Older ones: every 16th. After four checkpoints the spacing is four times larger (judgement: size). */
const spacing = { first: 16, more: 4 };

/**
 * The checkpoints from which the filter can run again when data arrive late: after the newest two casts, after every 16th of
 * the newest 64 casts, after every 64th of the newest 256, and so on. So late data need at most 16 casts more than came
 * after them, or a third more.
 */
export function thinCheckpoints(checkpoints: readonly Checkpoint[]): readonly Checkpoint[] {
  const last = checkpoints.at(-1)?.after ?? 0;
  return checkpoints.filter(({ after }) => {
    const age = last - after;
    if (age < newest) return true;
    let apart = spacing.first;
    while (age >= spacing.more * apart) apart *= spacing.more;
    return (after + 1) % apart === 0;
  });
}
