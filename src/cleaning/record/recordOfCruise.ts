// The maintenance record of a cruise with its casts.
import type { CellName } from "../../cast/cast.js";
import type { Cruise } from "../../cast/cruise.js";
import type { MaintenanceRecord } from "./recordTimeline.js";

/**
 * @param cells the cells on the package
 * @param now   ISO 8601 UTC
 */
export function recordOfCruise(
  { maintenance, casts, instrument }: Cruise,
  cells: readonly CellName[],
  now: string,
): MaintenanceRecord {
  return {
    maintenance,
    casts: casts.map(({ id, start, data }) => {
      const seconds = data?.columns.time_s?.at(-1);
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
