// A maintenance record without its cruise: what it says itself of casts and cells.
import type { CellName } from "../../cast/cast.js";
import type { MaintenanceEvent } from "../../cast/maintenance.js";
import type { MaintenanceRecord, RecordCast } from "./recordTimeline.js";

/**
 * The casts that the record names, in order of the first entry after each, which they cannot have begun after; and the
 * cells that it names.
 * @param now ISO 8601 UTC
 */
export function recordAlone(
  maintenance: readonly MaintenanceEvent[],
  now: string,
): MaintenanceRecord {
  const ids = new Set(maintenance.flatMap(({ afterCast }) => afterCast ?? []));
  const casts = [...ids].map((id): RecordCast => {
    const times = maintenance
      .filter(({ afterCast }) => afterCast === id)
      .flatMap(({ time }) => time ?? [])
      .sort((a, b) => Date.parse(a) - Date.parse(b));
    return times[0] === undefined ? { id } : { id, start: times[0] };
  });
  const timed = casts.every(({ start }) => start !== undefined);
  const cells = new Set<CellName>(["primary", ...maintenance.flatMap(({ cell }) => cell ?? [])]);
  return {
    maintenance,
    casts: timed
      ? casts.sort((a, b) => Date.parse(a.start!) - Date.parse(b.start!))
      : casts.map(({ id }) => ({ id })),
    instrument: { cells: [...cells] },
    now,
  };
}
