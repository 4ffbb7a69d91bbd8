// Each entry of the maintenance record under the cast it came after.
import type { Cruise, CruiseCast } from "../../cast/cruise.js";
import type { MaintenanceEvent } from "../../cast/maintenance.js";

export function maintenanceByCast({
  casts,
  maintenance,
}: Cruise): ReadonlyMap<string, readonly MaintenanceEvent[]> {
  const found = new Map<string, MaintenanceEvent[]>();
  for (const event of maintenance) {
    const cast = event.afterCast ?? lastCastBefore(casts, event.time);
    if (cast === undefined) continue;
    const events = found.get(cast);
    if (events === undefined) found.set(cast, [event]);
    else events.push(event);
  }
  return found;
}

function lastCastBefore(
  casts: readonly CruiseCast[],
  time: string | undefined,
): string | undefined {
  const at = Date.parse(time ?? "");
  return casts.filter(({ start }) => Date.parse(start ?? "") <= at).at(-1)?.id;
}
