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

/** The newest checkpoints that are kept: a verdict that is judged again as the newest no more needs the one before it. */
const newest = 2;
/** Before these one in so many; each such spacing holds for so many checkpoints, and is followed by one that much larger (judgement: size). */
const spacing = { first: 16, more: 4 };

/**
 * Checkpoints of which something that comes late is taken up: after the newest two casts, before these after every 16th of
 * the newest 64, every 64th of the newest 256, and so on. What comes late runs the filter again from at most 16 casts before
 * its own, or from as many as came after it and a third more.
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
