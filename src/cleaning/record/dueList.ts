// The work due: before the next cast, at the end of the leg, before a transit (common practice, no source).
import { rungOf } from "../ladder/intensities.js";
import { hazardsOf } from "../ladder/intensity.js";
import { beforeNextCast, type NextCastSettings } from "./beforeNextCast.js";
import { type At, type Due, dueAt } from "./due.js";
import { cleaningRank, entriesAfter } from "./recordEntries.js";
import { calibration_days, calibrationAges, longStorage_days } from "./recordRules/keeping.js";
import { type Entry, type MaintenanceRecord, type Timeline, timelineOf } from "./recordTimeline.js";

export type { Due, Occasion } from "./due.js";

/**
 * The work due, by occasion, without that recorded since the last cast.
 * @throws RangeError if `now` is not a time
 */
export function dueList(record: MaintenanceRecord, settings?: NextCastSettings): readonly Due[] {
  const timeline = timelineOf(record);
  const since = entriesAfter(timeline, timeline.casts.length - 1);
  return [
    ...beforeNextCast(record, settings).due,
    ...atTheEndOfTheLeg(timeline, since),
    ...beforeATransit(timeline, since),
  ];
}

function atTheEndOfTheLeg(timeline: Timeline, since: readonly Entry[]): readonly Due[] {
  const at = dueAt("at the end of the leg");
  const soak = rungOf(timeline.ladder, "soak");
  const late = calibrationAges(timeline).filter(({ days }) => !(days <= calibration_days));
  return [
    ...(since.some((entry) => cleaningRank(entry) >= 2)
      ? []
      : [at(`${soak.summary}.`, "Do not store a cell with a film in it.", hazardsOf(soak))]),
    ...closeOff(since, at),
    ...(timeline.entries.some(({ event }) => event.action === "battery")
      ? [
          at(
            "Have trained people disconnect the battery pack.",
            "A pack that stays in can leak in storage.",
            ["battery", "pressure-housing"],
          ),
        ]
      : []),
    ...late.map(({ cell, days }) =>
      at(
        `Send the ${cell} cell for calibration.`,
        Number.isNaN(days)
          ? "The record has no calibration of it."
          : `Its calibration is ${days.toFixed(0)} days old, more than ${calibration_days}.`,
      ),
    ),
  ];
}

function beforeATransit(timeline: Timeline, since: readonly Entry[]): readonly Due[] {
  const at = dueAt("before a transit");
  const wash = rungOf(timeline.ladder, "wash");
  return [
    ...(since.some((entry) => cleaningRank(entry) >= 1)
      ? []
      : [
          at(
            `${wash.summary}, if the transit takes more than ${longStorage_days} days.`,
            "Residue in a standing cell grows.",
            hazardsOf(wash),
          ),
        ]),
    ...closeOff(since, at),
  ];
}

function closeOff(since: readonly Entry[], at: At): readonly Due[] {
  if (since.some(({ event }) => event.action === "plugs")) return [];
  return [
    at("Close the cell off with clean plugs.", "Air, dust and insects get into an open cell."),
  ];
}
