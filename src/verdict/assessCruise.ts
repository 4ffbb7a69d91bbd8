// The main job: from a cruise in any state of completeness to a verdict on every cast.
import type { Cruise } from "../cast/cruise.js";
import { defaultConfidence } from "../cleaning/decision/decide.js";
import { nextCastOfCruise } from "../cleaning/record/nextCastOfCruise.js";
import { cellSerials } from "../cleaning/record/serials.js";
import { defaultRecovery } from "../model/recovery.js";
import { checkCruise } from "../read/checkCruise.js";
import { software } from "../software.js";
import { cleaningOutcomes } from "../track/cleaningOutcomes.js";
import { layoutOf } from "../track/layout.js";
import { track } from "../track/track.js";
import type { AssessmentSettings } from "./assessmentSettings.js";
import { castVerdict } from "./castVerdict.js";
import { type CastEvidence, cellsOf, cruiseEvidence } from "./gather/cruiseEvidence.js";
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
  const cells = cellsOf(cruise);
  const evidence: CastEvidence[] = [];
  for (const found of cruiseEvidence(cruise)) {
    evidence.push(found);
    settings.onCast?.(evidence.length, cruise.casts.length, found.cast.id);
  }
  const inputs = evidence.map((found) => found.tracked);
  const tracked = track(cells, inputs, defaultRecovery);
  const pastCleanings = cells.map((cell) =>
    cleaningOutcomes(layoutOf(cells), inputs, tracked, cell),
  );
  const serials = cellSerials(cruise, cells);
  const casts: Verdict[] = [];
  for (const own of serials) {
    casts.push(castVerdict(cruise, cells, evidence, tracked, pastCleanings, casts, own, settings));
  }
  const beforeNextCast = nextCastOfCruise(cruise, cells);
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
  cruise: Cruise,
  cast: string,
  settings: AssessmentSettings = {},
): Verdict {
  const verdict = assessCruise(cruise, settings).casts.find((found) => found.cast === cast);
  if (verdict === undefined) throw new RangeError(`the cruise has no cast ${cast}`);
  return verdict;
}
