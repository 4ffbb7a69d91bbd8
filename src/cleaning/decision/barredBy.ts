// Whether the instrument or the people aboard exclude a cleaning, for any available time.
import type { Instrument } from "../../cast/cruise.js";
import type { Intensity } from "../ladder/intensity.js";

/** @returns the reason; undefined if nothing excludes it */
export function barredBy(
  { hands, solutions }: Intensity,
  { noAcid }: Instrument,
  trainedHands: boolean | undefined,
): string | undefined {
  const acid = solutions.some(({ kind }) => kind === "acid");
  if (acid && noAcid === true) return "this cell must not see acid";
  if (acid && trainedHands !== true) {
    return "only trained people may use acid, and none are named as aboard: have it done ashore";
  }
  if (hands === "trained" && trainedHands === false) return "no trained people are aboard";
  return undefined;
}
