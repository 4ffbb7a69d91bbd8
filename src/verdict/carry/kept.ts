// The stored results of a cruise, as plain values. With them, a verdict on a new cast costs the work of one cast.
import type { CellName } from "../../cast/cast.js";
import type { Cruise } from "../../cast/cruise.js";
import type { ToldFrom } from "../../track/cleaningOutcomes.js";
import type { FilmsOfCast } from "../../track/filmsHeld.js";
import type { PastCast } from "../../track/pastCast.js";
import type { Followed } from "../../track/track.js";
import type { TrackedCast } from "../../track/tracked.js";
import type { AssessmentSettings } from "../assessmentSettings.js";
import type { CastInputs, Memories } from "../gather/observeCast.js";
import type { JudgedBy } from "../judge/judgedBy.js";
import type { Verdict } from "../verdict.js";

/** Inputs of all verdicts; a change means that all are computed again. */
export interface About extends Pick<Cruise, "instrument" | "target" | "deepReference"> {
  readonly cells: readonly CellName[];
  readonly settings: Omit<AssessmentSettings, "onCast">;
}

export interface KeptCast {
  readonly inputs: CastInputs;
  readonly judgedBy: JudgedBy;
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
  readonly left: Followed;
}

export interface Kept {
  readonly about: About;
  /** In order of time. */
  readonly casts: readonly KeptCast[];
  /** Oldest first. */
  readonly checkpoints: readonly Checkpoint[];
  /** The state at the newest cast, which is judged again when a newer one arrives; absent before the first. */
  readonly held?: TrackedCast;
  /** Estimates of past cleanings, by cell. */
  readonly told: readonly (readonly ToldFrom[])[];
}

/** The number of checkpoints for each spacing, and the ratio of successive spacings (judgement: size). */
const spacing = 4;

/**
 * Select the checkpoints to keep, from which late data are processed. They lie after each of the newest four casts, before
 * that after every fourth of the newest 16, every 16th of the newest 64, and so on. Late data for a cast then cost at most
 * a few times its age.
 */
export function thinned(checkpoints: readonly Checkpoint[]): readonly Checkpoint[] {
  const newest = checkpoints.at(-1)?.after ?? 0;
  return checkpoints.filter(({ after }) => {
    const age = newest - after;
    let apart = 1;
    while (age >= spacing * apart) apart *= spacing;
    return after % apart === 0;
  });
}
