// A maintenance record without its cruise: the casts and cells that it names.
import { group, least } from "d3-array";
import type { CellName } from "../../cast/cast.js";
import type { MaintenanceEvent } from "../../cast/maintenance.js";
import type { MaintenanceRecord, RecordCast } from "./recordTimeline.js";

/**
 * A record without its cruise: the casts that it names, in order of the first entry after each, because a cast began before
 * that entry; and the cells that it names.
 * @param now ISO 8601 UTC
 */
export function recordAlone(
  maintenance: readonly MaintenanceEvent[],
  now: string,
): MaintenanceRecord {
  const named = maintenance.flatMap(({ afterCast, time }) =>
    afterCast === undefined ? [] : [{ id: afterCast, time }],
  );
  const casts = [...group(named, ({ id }) => id)].map(([id, entries]): RecordCast => {
    const first = least(
      entries.flatMap(({ time }) => time ?? []),
      Date.parse,
    );
    return first === undefined ? { id } : { id, start: first };
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
