// The main job: from a cruise in any state of completeness to a verdict on every cast.
import type { Cruise } from "../cast/cruise.js";
import { checkCruise } from "../read/checkCruise.js";
import type { AssessmentSettings } from "./assessmentSettings.js";
import { carryOn } from "./carry/carryOn.js";
import { verdictDocument } from "./carry/verdictDocument.js";
import { knownFromScans } from "./gather/knownCruise.js";
import type { Verdict, VerdictDocument } from "./verdict.js";

/**
 * A verdict on every cast of a cruise, each from its own evidence and what came before it.
 * @param given casts, bottles and maintenance in any state of completeness, at least one cast
 * @throws RangeError where the cruise has no cast, BadInput where it holds what the readers refuse
 * @example assessCruise(cruise).casts.at(-1)?.advice.intensity
 */
export function assessCruise(given: Cruise, settings: AssessmentSettings = {}): VerdictDocument {
  const cruise = checkCruise(given);
  const known = knownFromScans(cruise);
  return verdictDocument(known, carryOn(known, settings));
}

/**
 * The verdict on one cast, as it stood when that cast came up: later casts are not looked at.
 * @throws RangeError where the cruise has no such cast
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
  return carryOn(known, settings, undefined, at + 1).casts[at]!.verdict;
}
