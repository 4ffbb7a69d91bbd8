// Input and output of the filter for one cast.
import type { CellName } from "../cast/cast.js";
import type { MaintenanceEvent } from "../cast/maintenance.js";
import type { CellPriors } from "../model/cellPrior.js";
import type { Hypothesis } from "../model/hypothesis.js";
import type { Noise } from "../model/noise.js";
import type { Observation, Onset } from "../model/observation.js";
import type { CastPath, TransientCandidate } from "../model/placesOnCast.js";
import type { ResponseSigns } from "../model/responseSigns.js";
import type { ErrorEvolutions } from "../model/sharedError.js";

/** A cast as the filter sees it. */
export interface TrackedInput {
  readonly cast: string;
  /** ISO 8601 UTC; absent if unknown. */
  readonly start?: string;
  readonly observations: readonly Observation[];
  readonly onsets: Readonly<Partial<Record<CellName, Onset>>>;
  /** Excursions within the cast: changes that came and went. */
  readonly excursions?: readonly TransientCandidate[];
  /** The response of the sensors, by cell, if it was observed. */
  readonly response?: Readonly<Partial<Record<CellName, ResponseSigns>>>;
  /** Time in the water and depth; absent without scans. */
  readonly path?: CastPath;
  /** Changes of shared errors since the cast before, where a line states them; all others change as they usually do. */
  readonly evolutions: ErrorEvolutions;
  /** Maintenance between this cast and the next. */
  readonly maintenanceAfter: readonly MaintenanceEvent[];
  /** Results of earlier cruises for the cells fitted after this cast, by their place on the package. */
  readonly fitted?: CellPriors;
}

/** The posterior after a cast; the weights of the hypotheses sum to one. */
export interface TrackedCast {
  readonly cast: string;
  readonly hypotheses: readonly Hypothesis[];
  /** The same after the maintenance that followed. */
  readonly afterMaintenance: readonly Hypothesis[];
  /** The noise that this cast was updated with. */
  readonly noise: Noise;
}

/** Assumed time between casts if times are absent, days (common practice, no source). */
const usualInterval_days = 0.5;
/** Days from one cast to the next; 0 before the first; the usual value if times are absent. */
export function daysBetween(
  before: Pick<TrackedInput, "start"> | undefined,
  next: Pick<TrackedInput, "start">,
): number {
  if (before === undefined) return 0;
  const from = Date.parse(before.start ?? "");
  const to = Date.parse(next.start ?? "");
  // Milliseconds in a day, by definition.
  return to > from ? (to - from) / 86_400_000 : usualInterval_days;
}
