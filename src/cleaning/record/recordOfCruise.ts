// The maintenance record of a cruise with its casts.
import type { CellName } from "../../cast/cast.js";
import type { Cruise, CruiseCast } from "../../cast/cruise.js";
import type { MaintenanceRecord } from "./recordTimeline.js";

/**
 * The maintenance record of a cruise beside its casts.
 * @param cells the cells on the package
 * @param now   ISO 8601 UTC
 * @param secondsOf a cast, on its clock at the end; from its scans if absent
 */
export function recordOfCruise(
  { maintenance, casts, instrument }: Cruise,
  cells: readonly CellName[],
  now: string,
  secondsOf: SecondsOf = fromItsScans,
): MaintenanceRecord {
  return {
    maintenance,
    casts: casts.map((cast) => {
      const { id, start } = cast;
      const seconds = secondsOf(cast);
      return {
        id,
        ...(start === undefined ? {} : { start }),
        ...(seconds !== undefined && seconds > 0 ? { hours: seconds / 3600 } : {}),
      };
    }),
    instrument: { ...instrument, cells },
    now,
  };
}

/** Time on the clock of a cast at its end; undefined if it has none. */
export type SecondsOf = (cast: CruiseCast) => number | undefined;

function fromItsScans({ data }: CruiseCast): number | undefined {
  return data?.columns.time_s?.at(-1);
}
