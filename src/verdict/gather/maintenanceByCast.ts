// Group the entries of the maintenance record by the cast that they follow.
import { group } from "d3-array";
import type { Cruise, CruiseCast } from "../../cast/cruise.js";
import type { MaintenanceEvent } from "../../cast/maintenance.js";

export function maintenanceByCast({
  casts,
  maintenance,
}: Cruise): ReadonlyMap<string | undefined, readonly MaintenanceEvent[]> {
  return group(maintenance, ({ afterCast, time }) => afterCast ?? lastCastBefore(casts, time));
}

function lastCastBefore(
  casts: readonly CruiseCast[],
  time: string | undefined,
): string | undefined {
  const at = Date.parse(time ?? "");
  return casts.filter(({ start }) => Date.parse(start ?? "") <= at).at(-1)?.id;
}
