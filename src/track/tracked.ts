// What goes into the filter of one cast, and what comes out.
import type { CellName } from "../cast/cast.js";
import type { IntensityName, MaintenanceEvent } from "../cast/maintenance.js";
import type { CastPath, Excursion } from "../model/course.js";
import type { Hypothesis } from "../model/hypothesis.js";
import type { Noise } from "../model/noise.js";
import type { Observation, Onset } from "../model/observation.js";
import type { RecoveryPrior } from "../model/recovery.js";
import type { ResponseSigns } from "../model/responseSigns.js";
import type { Passages } from "../model/sharedError.js";

/** A cast as the filter sees it. */
export interface TrackedInput {
  readonly cast: string;
  /** ISO 8601 UTC; absent where not known. */
  readonly start?: string;
  readonly observations: readonly Observation[];
  readonly onsets: Readonly<Partial<Record<CellName, Onset>>>;
  /** What was seen to come and go within the cast. */
  readonly excursions?: readonly Excursion[];
  /** How the sensors answered, by cell, where that was seen. */
  readonly response?: Readonly<Partial<Record<CellName, ResponseSigns>>>;
  /** How long it was in the water, and how deep; absent without scans. */
  readonly path?: CastPath;
  /** How shared errors passed from the cast before to this one, where their lines say more than usual. */
  readonly passages: Passages;
  /** What the record says was done after it and before the next. */
  readonly maintenanceAfter: readonly MaintenanceEvent[];
}

/** The posterior after a cast: hypotheses with weights that sum to one. */
export interface TrackedCast {
  readonly cast: string;
  readonly hypotheses: readonly Hypothesis[];
  /** The same after what the record says was done since. */
  readonly now: readonly Hypothesis[];
  /** The noise that this cast was judged with. */
  readonly noise: Noise;
}

export type Recovery = Readonly<Record<IntensityName, RecoveryPrior>>;

/** Where times are not written, casts are taken to be this far apart, days (common practice, no source). */
const usualInterval_days = 0.5;
/** Days from one cast to the next; 0 before the first, the usual where times are not written. */
export function daysBetween(
  before: Pick<TrackedInput, "start"> | undefined,
  next: Pick<TrackedInput, "start">,
): number {
  if (before === undefined) return 0;
  const from = Date.parse(before.start ?? "");
  const to = Date.parse(next.start ?? "");
  // Milliseconds of a day, by definition.
  return to > from ? (to - from) / 86_400_000 : usualInterval_days;
}
