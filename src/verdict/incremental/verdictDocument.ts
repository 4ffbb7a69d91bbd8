// The verdict document of a cruise: its verdicts and their inputs.
import { defaultConfidence } from "../../cleaning/decision/decide.js";
import { nextCastOfCruise } from "../../cleaning/record/nextCastOfCruise.js";
import { software } from "../../software.js";
import type { KnownCruise } from "../gather/knownCruise.js";
import { type VerdictDocument, verdictFormat } from "../verdict.js";
import type { StoredCruise } from "./storedCruise.js";

/** @throws RangeError if the cruise has no cast */
export function verdictDocument(
  { cruise, casts }: KnownCruise,
  { about, casts: stored }: Pick<StoredCruise, "about" | "casts">,
): VerdictDocument {
  const last = casts.at(-1)?.cast;
  if (last === undefined)
    throw new RangeError("a cruise to assess has at least one cast, found none");
  const { settings, cells } = about;
  const seconds = new Map(casts.map(({ cast, seconds }) => [cast.id, seconds]));
  const beforeNextCast = nextCastOfCruise(cruise, cells, ({ id }) => seconds.get(id));
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
    casts: stored.map(({ verdict }) => verdict),
    latest: last.id,
    ...(beforeNextCast === undefined ? {} : { beforeNextCast }),
    software,
    inputs: cruise.inputs,
  };
}
