// The maintenance record and the casts on one timeline: the cast that each entry followed.
import type { CellName } from "../../cast/cast.js";
import type { Instrument } from "../../cast/cruise.js";
import type { MaintenanceEvent } from "../../cast/maintenance.js";
import { defaultLadder } from "../ladder/intensities.js";
import type { Ladder } from "../ladder/intensity.js";

/** The properties of a cast that the record needs. */
export interface RecordCast {
  readonly id: string;
  /** ISO 8601 UTC. */
  readonly start?: string;
  /** From start to recovery; absent if unknown. */
  readonly hours?: number;
}

export interface MaintenanceRecord {
  readonly maintenance: readonly MaintenanceEvent[];
  /** In order of time. */
  readonly casts: readonly RecordCast[];
  readonly instrument: Instrument;
  /** ISO 8601 UTC. */
  readonly now: string;
  /** The ship's procedure; the default ladder if absent. */
  readonly ladder?: Ladder;
}

export interface Entry {
  readonly event: MaintenanceEvent;
  /** Milliseconds UTC; NaN if the record gives no time. */
  readonly start: number;
  /** End of the entry, with its minutes if given. */
  readonly end: number;
  /** Index of the cast that it followed; -1 before the first, NaN if unknown. */
  readonly after: number;
}

interface TimelineCast extends RecordCast {
  /** Milliseconds UTC; NaN where not known. */
  readonly startTime: number;
  /** NaN if start or hours are unknown. */
  readonly endTime: number;
}

export interface Timeline {
  /** In order: by the cast followed, then by time, then as written. */
  readonly entries: readonly Entry[];
  readonly casts: readonly TimelineCast[];
  readonly instrument: Instrument;
  readonly cells: readonly CellName[];
  readonly now: number;
  readonly ladder: Ladder;
}

/** By definition. */
const hour_ms = 3_600_000;
export const day_ms = 24 * hour_ms;

/** @throws RangeError if `now` is no time */
export function timelineOf(record: MaintenanceRecord): Timeline {
  const now = Date.parse(record.now);
  if (Number.isNaN(now)) throw new RangeError(`now is an ISO 8601 time, found ${record.now}`);
  const casts = record.casts.map((cast) => {
    const startTime = Date.parse(cast.start ?? "");
    return { ...cast, startTime, endTime: startTime + (cast.hours ?? Number.NaN) * hour_ms };
  });
  const entries = record.maintenance.map((event): Entry => {
    const start = Date.parse(event.time ?? "");
    const end = start + (event.minutes ?? 0) * 60_000;
    return { event, start, end, after: castFollowed(event, start, casts) };
  });
  const { cells } = record.instrument;
  return {
    entries: inOrder(entries),
    casts,
    instrument: record.instrument,
    cells: cells ?? ["primary"],
    now,
    ladder: record.ladder ?? defaultLadder,
  };
}

/** By the cast followed, then by time; an entry without both follows the one written above it. */
function inOrder(entries: readonly Entry[]): readonly Entry[] {
  let cast = Number.NEGATIVE_INFINITY;
  const times = new Map<number, number>();
  const placed = entries.map((entry) => {
    if (!Number.isNaN(entry.after)) cast = entry.after;
    if (!Number.isNaN(entry.start)) times.set(cast, entry.start);
    return { entry, cast, time: times.get(cast) ?? Number.NEGATIVE_INFINITY };
  });
  return placed
    .sort((a, b) => compare(a.cast, b.cast) || compare(a.time, b.time))
    .map(({ entry }) => entry);
}

function compare(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function castFollowed(
  { afterCast }: MaintenanceEvent,
  start: number,
  casts: readonly TimelineCast[],
): number {
  if (afterCast !== undefined) {
    const index = casts.findIndex(({ id }) => id === afterCast);
    return index < 0 ? Number.NaN : index;
  }
  if (Number.isNaN(start)) return Number.NaN;
  return casts.findLastIndex(({ startTime }) => startTime <= start);
}

/** From the end of a cast (or its start, if the end is unknown) to the next cast or to now, ms; NaN if unknown. */
export function pauseAfter({ casts, now }: Timeline, index: number): number {
  const cast = casts[index];
  if (cast === undefined) return Number.NaN;
  const next = casts[index + 1];
  const from = Number.isNaN(cast.endTime) ? cast.startTime : cast.endTime;
  return (next === undefined ? now : next.startTime) - from;
}
