// What is due: before the next cast, at the end of the leg, before a transit. Common practice, no source.

import { cautionsFor, type Hazard } from "../cautions.js";
import { rungOf } from "../ladder/intensities.js";
import { hazardsOf } from "../ladder/intensity.js";
import { packVolts } from "./battery.js";
import {
  calibration_days,
  calibrationAges,
  longStorage_days,
  openedWithoutSeals,
} from "./recordRules/keeping.js";
import {
  cleaningRank,
  day_ms,
  type Entry,
  entriesAfter,
  type MaintenanceRecord,
  type Timeline,
  timelineOf,
} from "./recordTimeline.js";

export const occasions = [
  "before the next cast",
  "at the end of the leg",
  "before a transit",
] as const;
export type Occasion = (typeof occasions)[number];

export interface Due {
  readonly when: Occasion;
  readonly what: string;
  readonly because: string;
  readonly cautions: readonly string[];
}

/** A battery check is good for this long (common practice, no source). */
const batteryCheck_days = 7;

/**
 * What the record leaves to be done, by occasion; nothing that it says was done since the last cast.
 * @throws RangeError where `now` is no time
 */
export function dueList(record: MaintenanceRecord): readonly Due[] {
  const timeline = timelineOf(record);
  const since = entriesAfter(timeline, timeline.casts.length - 1);
  return [
    ...beforeTheNextCast(timeline, since),
    ...atTheEndOfTheLeg(timeline, since),
    ...beforeATransit(timeline, since),
  ];
}

function beforeTheNextCast(timeline: Timeline, since: readonly Entry[]): readonly Due[] {
  const { casts } = timeline;
  const at = dueAt("before the next cast");
  const rinsed = since.some((entry) => cleaningRank(entry) >= 0 || entry.event.rinsed === true);
  const plugged = since.some(({ event }) => event.action === "plugs");
  const unsealed = openedWithoutSeals(timeline).filter(({ after }) => after === casts.length - 1);
  return [
    ...(rinsed || casts.length === 0
      ? []
      : [
          at(
            "Rinse the cell with deionised water.",
            `No rinse is written down since cast ${casts.at(-1)!.id}.`,
          ),
        ]),
    ...(plugged
      ? [
          at(
            "Take the plugs out and check that water passes.",
            "Plugs were put in since the last cast.",
          ),
        ]
      : []),
    ...(unsealed.length > 0
      ? [
          at(
            "Inspect the seals and the end cap of the housing that was opened.",
            "It was opened since the last cast and no inspection is written down.",
            ["pressure-housing"],
          ),
        ]
      : []),
    ...battery(timeline).map((because) =>
      at("Check the battery pack, and change it where it is low.", because, [
        "battery",
        "pressure-housing",
      ]),
    ),
    ...(done(since, "pre-cast-check")
      ? []
      : [
          at(
            "Make the pre-cast check: cell wet and clear, tubing joined, pump and connectors sound, readings in air and on deck noted.",
            "None is written down since the last cast.",
          ),
        ]),
  ];
}

function atTheEndOfTheLeg(timeline: Timeline, since: readonly Entry[]): readonly Due[] {
  const at = dueAt("at the end of the leg");
  const soak = rungOf(timeline.ladder, "soak");
  const late = calibrationAges(timeline).filter(
    ({ entry, days }) => entry === undefined || days > calibration_days,
  );
  return [
    ...(since.some((entry) => cleaningRank(entry) >= 2)
      ? []
      : [at(`${soak.summary}.`, "A cell is not put away with a film in it.", hazardsOf(soak))]),
    ...closeOff(since, at),
    ...(timeline.entries.some(({ event }) => event.action === "battery")
      ? [
          at(
            "Disconnect the battery pack, by trained hands.",
            "A pack left in can leak while it is stored.",
            ["battery", "pressure-housing"],
          ),
        ]
      : []),
    ...late.map(({ cell, entry, days }) =>
      at(
        `Send the ${cell} cell for calibration.`,
        entry === undefined
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
            `${wash.summary}, if it is more than ${longStorage_days} days.`,
            "What is left in a standing cell grows.",
            hazardsOf(wash),
          ),
        ]),
    ...closeOff(since, at),
  ];
}

type At = (what: string, because: string, hazards?: readonly Hazard[]) => Due;

function dueAt(when: Occasion): At {
  return (what, because, hazards = []) => ({ when, what, because, cautions: cautionsFor(hazards) });
}

function closeOff(since: readonly Entry[], at: At): readonly Due[] {
  if (done(since, "plugs")) return [];
  return [
    at("Close the cell off with clean plugs.", "Air, dust and insects get into an open cell."),
  ];
}

function done(since: readonly Entry[], action: Entry["event"]["action"]): boolean {
  return since.some(({ event }) => event.action === action);
}

/** Why the pack is to be checked; none where no pack was ever mentioned: a CTD on a sea cable has none. */
function battery({ entries, now }: Timeline): readonly string[] {
  const last = entries.findLast(({ event }) => event.action === "battery");
  if (last === undefined) return [];
  const pack = packVolts(last);
  if (pack !== undefined && pack.volts < pack.least) {
    return [
      `It had ${pack.volts} V when last checked, less than ${Number(pack.least.toFixed(2))} V.`,
    ];
  }
  const days = (now - last.start) / day_ms;
  return days > batteryCheck_days ? [`It was last checked ${days.toFixed(0)} days ago.`] : [];
}
