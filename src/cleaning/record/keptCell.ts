// The storage of each cell since the last cast: wet, dry or unknown, and for how long.
import type { CellName } from "../../cast/cast.js";
import { cleaningRank, entriesAfter, isOf } from "./recordEntries.js";
import { day_ms, type Entry, pauseAfter, type Timeline } from "./recordTimeline.js";

interface KeptCell {
  readonly cell: CellName;
  readonly state: "wet" | "dry" | "unsaid";
  /** Since the entry about it, otherwise since the last cast; NaN if no time is known. */
  readonly days: number;
}

export function keptCells(timeline: Timeline): readonly KeptCell[] {
  const { cells, casts, now } = timeline;
  const since = entriesAfter(timeline, casts.length - 1);
  return cells.map((cell): KeptCell => {
    const said = since.findLast((entry) => isOf(entry, cell) && stateOf(entry) !== undefined);
    const days = pauseAfter(timeline, casts.length - 1) / day_ms;
    if (said === undefined) return { cell, state: "unsaid", days };
    const since_days = (now - said.end) / day_ms;
    return {
      cell,
      state: stateOf(said)!,
      days: Number.isNaN(since_days) ? days : since_days,
    };
  });
}

/** The storage of the cell according to an entry, recognised by common words. */
function stateOf(entry: Entry): "wet" | "dry" | undefined {
  const { action, solution = "", note = "", drained } = entry.event;
  if (cleaningRank(entry) < 0 && action !== "storage" && action !== "plugs") return undefined;
  if (drained !== undefined) return drained ? "dry" : "wet";
  if (/\bdry\b|\bdried\b|drained/i.test(note)) return "dry";
  if (/\bwet\b|filled/i.test(note)) return "wet";
  return action === "storage" && /water/i.test(solution) ? "wet" : undefined;
}
