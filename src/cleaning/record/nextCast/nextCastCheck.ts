// One check of the list before the next cast.
import type { At, Due } from "../due.js";
import { entriesAfter } from "../recordEntries.js";
import type { Entry, Timeline } from "../recordTimeline.js";

export interface NextCastSettings {
  /** Number of casts that the battery must last. Default 3. */
  readonly castsToCome?: number;
  /** Lowest air temperature on deck until the next cast, degree C; no frost warning if absent. */
  readonly air_C?: number;
}

export type NextCastCheck = (
  timeline: Timeline,
  at: At,
  settings: NextCastSettings,
) => readonly Due[];

export function sinceLastCast(timeline: Timeline): readonly Entry[] {
  return entriesAfter(timeline, timeline.casts.length - 1);
}
