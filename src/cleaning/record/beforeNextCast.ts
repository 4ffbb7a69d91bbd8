// The work due before the next cast, with reasons: one list, in the order of the work.
import type * as z from "zod";
import type { Immutable } from "../../immutable.js";
import { batterySentence, batteryTrend } from "./battery.js";
import { cautionsOfDue, dueAt } from "./due.js";
import type { NextCastCheck, NextCastSettings } from "./nextCast/nextCastCheck.js";
import { airReadings, frost, kept, rinse } from "./nextCast/ofTheCells.js";
import { pack, plugs, preCastCheck, seals } from "./nextCast/ofTheInstrument.js";
import type { beforeNextCastSchema } from "./nextCastSchema.js";
import { type MaintenanceRecord, timelineOf } from "./recordTimeline.js";

export type { NextCastSettings } from "./nextCast/nextCastCheck.js";

export type BeforeNextCast = Immutable<z.infer<typeof beforeNextCastSchema>>;

const checks: readonly NextCastCheck[] = [
  frost,
  rinse,
  kept,
  plugs,
  seals,
  pack,
  airReadings,
  preCastCheck,
];

/**
 * The work due before the next cast, without that recorded since the last one.
 * @throws RangeError if `now` is not a time
 */
export function beforeNextCast(
  record: MaintenanceRecord,
  settings: NextCastSettings = {},
): BeforeNextCast {
  const timeline = timelineOf(record);
  const battery = batteryTrend(timeline);
  const at = dueAt("before the next cast");
  const due = checks.flatMap((check) => check(timeline, at, settings));
  return { due, ...(battery === undefined ? {} : { battery }), cautions: cautionsOfDue(due) };
}

/** The list as plain lines: the work due with reasons, the battery, the cautions. */
export function beforeNextCastText({ due, battery, cautions }: BeforeNextCast): string {
  return [
    "Before the next cast",
    ...due.map(({ what, because }) => `- ${what} ${because}`),
    ...(battery === undefined ? [] : [batterySentence(battery)]),
    ...cautions.map((caution) => `! ${caution}`),
  ].join("\n");
}
