// The main entry point: from a cruise, complete or not, to a verdict on every cast.
import type { Cruise } from "../cast/cruise.js";
import { checkCruise } from "../read/checkCruise.js";
import type { AssessmentSettings } from "./assessmentSettings.js";
import { knownFromScans } from "./gather/knownCruise.js";
import { updateVerdicts } from "./incremental/updateVerdicts.js";
import { verdictDocument } from "./incremental/verdictDocument.js";
import type { Verdict, VerdictDocument } from "./verdict.js";

/**
 * A verdict on every cast of a cruise, each from its own evidence and the casts before it.
 * @param given casts, bottles and maintenance, complete or not; at least one cast
 * @throws RangeError if the cruise has no cast, BadInput if the readers would refuse its data
 * @example assessCruise(cruise).casts.at(-1)?.advice.intensity
 */
export function assessCruise(given: Cruise, settings: AssessmentSettings = {}): VerdictDocument {
  const cruise = checkCruise(given);
  const known = knownFromScans(cruise);
  return verdictDocument(known, updateVerdicts(known, settings));
}

/**
 * The verdict on one cast as of the time of that cast: later casts are not used.
 * @throws RangeError if the cruise has no such cast
 */
export function assessCast(
  given: Cruise,
  cast: string,
  settings: AssessmentSettings = {},
): Verdict {
  const bare = checkCruise({ ...given, casts: given.casts.map(({ data: _, ...cast }) => cast) });
  const at = bare.casts.findIndex(({ id }) => id === cast);
  if (at < 0) throw new RangeError(`the cruise has no cast ${cast}`);
  const order = new Map(bare.casts.map(({ id }, i) => [id, i]));
  const upTo = (id: string) => (order.get(id) ?? Number.POSITIVE_INFINITY) <= at;
  const cruise = checkCruise({
    ...given,
    casts: given.casts.map(({ data, ...own }) =>
      data !== undefined && upTo(own.id) ? { ...own, data } : own,
    ),
  });
  const bottles = cruise.bottles.filter((bottle) => upTo(bottle.cast));
  const known = knownFromScans({ ...cruise, bottles });
  return updateVerdicts(known, settings, undefined, at + 1).casts[at]!.verdict;
}
