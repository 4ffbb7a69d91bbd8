// Questions about the entries of a record.
import type { CellName } from "../../cast/cast.js";
import { intensityNames } from "../../cast/maintenance.js";
import type { Entry, Timeline } from "./recordTimeline.js";

/** Whether an entry concerns this cell. */
export function isOf({ event }: Entry, cell: CellName): boolean {
  return event.cell === undefined || event.cell === cell;
}

/** The rank of a cleaning in the ladder, 0 for a rinse; -1 if the entry is not a cleaning. */
export function cleaningRank({ event }: Entry): number {
  return (intensityNames as readonly string[]).indexOf(event.action);
}

/** Entries between a cast and the next. */
export function entriesAfter({ entries }: Timeline, cast: number): readonly Entry[] {
  return entries.filter(({ after }) => after === cast);
}
