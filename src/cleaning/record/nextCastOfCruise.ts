// The list before the next cast of a cruise, from its record and its settings.
import type { CellName } from "../../cast/cast.js";
import type { Cruise } from "../../cast/cruise.js";
import { type BeforeNextCast, beforeNextCast } from "./beforeNextCast.js";
import { recordOfCruise, type SecondsOf } from "./recordOfCruise.js";
import { type MaintenanceRecord, timelineOf } from "./recordTimeline.js";

/**
 * The work due before the next cast, at the time of the next station; if that is unknown, at the last time in the casts or
 * the record. The clock of the computer is not used, so the same files give the same list.
 * @param cells the cells on the package
 * @returns undefined for a cruise without a record, or without any time
 */
export function nextCastOfCruise(
  cruise: Cruise,
  cells: readonly CellName[],
  secondsOf?: SecondsOf,
): BeforeNextCast | undefined {
  const { maintenance, inputs, nextStation = {} } = cruise;
  if (maintenance.length === 0 && inputs.every(({ role }) => role !== "maintenance"))
    return undefined;
  const now = nextStation.time ?? lastTime(recordOfCruise(cruise, cells, epoch, secondsOf));
  if (now === undefined) return undefined;
  const { air_C, castsToCome } = nextStation;
  return beforeNextCast(recordOfCruise(cruise, cells, now, secondsOf), {
    ...(air_C === undefined ? {} : { air_C }),
    ...(castsToCome === undefined ? {} : { castsToCome }),
  });
}

const epoch = "1970-01-01T00:00:00Z";

/** ISO 8601 UTC. */
function lastTime(record: MaintenanceRecord): string | undefined {
  const { casts, entries } = timelineOf(record);
  const times = [
    ...casts.flatMap(({ startTime, endTime }) => [startTime, endTime]),
    ...entries.map(({ end }) => end),
  ].filter((time) => !Number.isNaN(time));
  return times.length === 0 ? undefined : new Date(Math.max(...times)).toISOString();
}
