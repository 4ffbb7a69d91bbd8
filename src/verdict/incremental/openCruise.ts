// Functions for a pipeline during a cruise: after each cast, and when late values arrive. Pure functions.
import type { Bottle } from "../../cast/bottle.js";
import type { Cast } from "../../cast/cast.js";
import {
  type Cruise,
  type CruiseCast,
  defaultTarget,
  type NextStation,
} from "../../cast/cruise.js";
import type { MaintenanceEvent } from "../../cast/maintenance.js";
import { checkKnownCruise } from "../../read/checkCruise.js";
import type { AssessmentSettings } from "../assessmentSettings.js";
import type { Verdict } from "../verdict.js";
import { type CruiseState, type CruiseUpdate, refuseOther, withMore } from "./cruiseState.js";
import { mergedBottles } from "./mergedBottles.js";

/** A cruise before its first cast. */
export interface CruiseOpening
  extends Pick<Cruise, "name" | "note" | "nextStation" | "timeZone" | "deepReference"> {
  /** The known facts about the instrument; none if absent. */
  readonly instrument?: Cruise["instrument"];
  /** Required salinity accuracy, PSS-78; 0.002 if absent. */
  readonly target?: number;
}

/** The data that arrive with a cast. */
export interface WithCast {
  /** Bottles closed on it, measured or not. List them all: the cell readings at closure are taken from its scans now. */
  readonly bottles?: readonly Bottle[];
  /** The next station; it replaces the one given before. */
  readonly nextStation?: NextStation;
}

/**
 * The state of a cruise before its first cast.
 * @throws BadInput if a setting is not valid
 * @example openCruise({ name: "an invented cruise" }).cruise.target // 0.002
 */
export function openCruise(
  { instrument = {}, target = defaultTarget, ...opening }: CruiseOpening,
  { onCast: _, ...settings }: AssessmentSettings = {},
): CruiseState {
  const given = { ...opening, instrument, target, casts: [], bottles: [], maintenance: [] };
  const { cruise } = checkKnownCruise({ ...given, inputs: [] });
  return { cruise, settings, reads: [] };
}

/**
 * Add one cast, at any place in time, or the scans of a cast of which only bottles are known.
 * @returns the state without its scans, and the verdict on the newest cast
 * @throws BadInput if the cast or its bottles cannot be used, or the cast exists already
 */
export function addCast(
  state: CruiseState,
  cast: CruiseCast,
  { bottles = [], nextStation }: WithCast = {},
): CruiseUpdate & { readonly verdict: Verdict } {
  const { cruise, reads } = state;
  const isBare = (id: string) => id === cast?.id && reads.every((read) => read.cast !== id);
  const known = cruise.casts.some(({ id }) => isBare(id)) && cast.data !== undefined;
  const casts = known
    ? cruise.casts.map((one) => (isBare(one.id) ? { ...one, ...cast } : one))
    : [...cruise.casts, cast];
  const update = withMore(
    state,
    {
      ...cruise,
      casts,
      bottles: mergedBottles(cruise.bottles, bottles, idsOf(casts)),
      ...(nextStation === undefined ? {} : { nextStation }),
    },
    { refuse: refuseOther },
  );
  return { ...update, verdict: update.verdict! };
}

/**
 * Add laboratory values that arrive late, and bottles that were not listed with their cast.
 * @param bottles each with the same cast and label as before; properties that are absent keep their value
 * @param scans   the scans, once more, of casts whose bottles were not all listed, because they hold the cell readings at
 *   closure
 * @throws BadInput if they cannot be used, or cannot be read without the scans of their cast; RangeError for scans of a
 *   cast that the cruise does not have
 */
export function addBottles(
  state: CruiseState,
  bottles: readonly Bottle[],
  scans: readonly Cast[] = [],
): CruiseUpdate {
  const { cruise } = state;
  const again = new Map(scans.map((data) => [data.id, data]));
  const unknown = scans.find(({ id }) => cruise.casts.every((cast) => cast.id !== id));
  if (unknown !== undefined) throw new RangeError(`the cruise has no cast ${unknown.id}`);
  const casts = cruise.casts.map((cast) => {
    const data = again.get(cast.id);
    return data === undefined ? cast : { ...cast, data };
  });
  const merged = mergedBottles(cruise.bottles, bottles, idsOf(casts));
  return withMore(state, { ...cruise, casts, bottles: merged }, { refuse: refuseOther });
}

/**
 * Add entries of the maintenance record, dated at any time.
 * @throws BadInput if they cannot be used
 */
export function addMaintenance(
  state: CruiseState,
  entries: readonly MaintenanceEvent[],
): CruiseUpdate {
  const { cruise } = state;
  return withMore(state, { ...cruise, maintenance: [...cruise.maintenance, ...entries] });
}

function idsOf(casts: readonly CruiseCast[]): readonly string[] {
  return casts.map(({ id }) => id);
}
