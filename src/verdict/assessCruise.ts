// The main job: from a cruise in any state of completeness to a verdict on every cast.
import type { Cruise } from "../cast/cruise.js";
import { defaultConfidence } from "../cleaning/decision/decide.js";
import { nextCastOfCruise } from "../cleaning/record/nextCastOfCruise.js";
import { cellSerials } from "../cleaning/record/serials.js";
import { defaultRecovery } from "../model/recovery.js";
import { checkCruise } from "../read/checkCruise.js";
import { software } from "../software.js";
import { cleaningOutcomes } from "../track/cleaningOutcomes.js";
import { type FilmsOfCast, filmsHeld } from "../track/filmsHeld.js";
import { layoutOf } from "../track/layout.js";
import { begun, follow, leave } from "../track/track.js";
import type { TrackedInput } from "../track/tracked.js";
import type { AssessmentSettings } from "./assessmentSettings.js";
import { castVerdict } from "./castVerdict.js";
import { type CastEvidence, cellsOf, cruiseEvidence } from "./gather/cruiseEvidence.js";
import { carriedInto } from "./history/carriedInto.js";
import { type Verdict, type VerdictDocument, verdictFormat } from "./verdict.js";

/**
 * A verdict on every cast of a cruise, each from its own evidence and what came before it.
 * @param given casts, bottles and maintenance in any state of completeness, at least one cast
 * @throws RangeError where the cruise has no cast, BadInput where it holds what the readers refuse
 * @example assessCruise(cruise).casts.at(-1)?.advice.intensity
 */
export function assessCruise(given: Cruise, settings: AssessmentSettings = {}): VerdictDocument {
  const cruise = checkCruise(given);
  const last = cruise.casts.at(-1);
  if (last === undefined)
    throw new RangeError("a cruise to assess has at least one cast, found none");
  const casts = [...castVerdicts(cruise, settings)];
  const beforeNextCast = nextCastOfCruise(cruise, cellsOf(cruise));
  return {
    format: verdictFormat,
    cruise: {
      name: cruise.name,
      ...(cruise.note === undefined ? {} : { note: cruise.note }),
      target: cruise.target,
      ...(cruise.timeZone === undefined ? {} : { timeZone: cruise.timeZone }),
    },
    settings: {
      confidence: settings.confidence ?? defaultConfidence,
      procedure: settings.ladder === undefined ? "usual" : "the ship's own",
      ...(settings.trainedHands === undefined ? {} : { trainedHands: settings.trainedHands }),
    },
    casts,
    latest: last.id,
    ...(beforeNextCast === undefined ? {} : { beforeNextCast }),
    software,
    inputs: cruise.inputs,
  };
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
  const casts = castVerdicts({ ...cruise, bottles }, settings);
  for (let i = 0; i < at; i++) casts.next();
  return casts.next().value!;
}

/** Cast by cast; what the filter held of a cast goes once the next has come up. */
function* castVerdicts(
  cruise: Cruise,
  settings: AssessmentSettings,
): Generator<Verdict, undefined> {
  const cells = cellsOf(cruise);
  const layout = layoutOf(cells);
  const serials = cellSerials(cruise, cells);
  const outcomesOf = cells.map((cell) => cleaningOutcomes(cell));
  const films = cells.map((): FilmsOfCast[] => []);
  const soFar: CastEvidence[] = [];
  const inputs: TrackedInput[] = [];
  const before: Verdict[] = [];
  const carried = carriedInto(cruise, cells, serials[0]!, settings.history);
  let left = begun(layout, cruise.casts[0]!.id, carried.byCell);
  for (const found of cruiseEvidence(cruise, carried.response)) {
    const input = found.tracked;
    const followed = follow(layout, left, input, inputs.at(-1));
    left = leave(layout, followed, input, defaultRecovery);
    soFar.push(found);
    inputs.push(input);
    const { hypotheses, noise } = followed;
    const held = { cast: input.cast, hypotheses, now: left.hypotheses, noise };
    for (const [i, cell] of cells.entries()) {
      const own = (some: typeof hypotheses) => filmsHeld(layout, some, cell);
      films[i]!.push({ held: own(hypotheses), now: own(held.now) });
    }
    const seen = outcomesOf.flatMap((told, i) => told({ inputs, films: films[i]! }));
    const outcomes = [...carried.outcomes, ...seen];
    const at = soFar.length - 1;
    const own = serials[at]!;
    const told = castVerdict(cruise, cells, soFar, held, outcomes, before, own, settings);
    const verdict = { ...told, notes: [...told.notes, ...carried.notes] };
    before.push(verdict);
    yield verdict;
    settings.onCast?.(soFar.length, cruise.casts.length, found.cast.id);
  }
}
