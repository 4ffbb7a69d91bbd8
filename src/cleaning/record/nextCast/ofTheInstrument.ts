// Work on the rest of the instrument before the next cast: plugs, seals, battery, the check on deck.
import { batteryTrend } from "../battery.js";
import { openedWithoutSeals } from "../recordRules/keeping.js";
import { day_ms } from "../recordTimeline.js";
import { type NextCastCheck, sinceLastCast } from "./nextCastCheck.js";

/** A battery check is valid for this long (common practice, no source). */
const batteryCheck_days = 7;
/** Number of casts that a pack must last: about a day of stations (judgement). */
const defaultCastsToCome = 3;

export const plugs: NextCastCheck = (timeline, at) =>
  sinceLastCast(timeline).some(({ event }) => event.action === "plugs")
    ? [
        at(
          "Take the plugs out and check that water passes.",
          "Plugs were put in since the last cast.",
        ),
      ]
    : [];

export const seals: NextCastCheck = (timeline, at) =>
  openedWithoutSeals(timeline).some(({ after }) => after === timeline.casts.length - 1)
    ? [
        at(
          "Inspect the seals and the end cap of the housing that was opened.",
          "It was opened since the last cast, and the record has no inspection.",
          ["pressure-housing"],
        ),
      ]
    : [];

/** None if no pack was ever mentioned: a CTD on a sea cable has none. */
export const pack: NextCastCheck = (timeline, at, { castsToCome = defaultCastsToCome }) => {
  const { entries, now } = timeline;
  const trend = batteryTrend(timeline);
  const last = entries.findLast(({ event }) => event.action === "battery");
  if (last === undefined) return [];
  const change = (because: string) => [at("Change the battery pack.", because, hazards)];
  const hazards = ["battery", "pressure-housing"] as const;
  if (trend !== undefined && trend.volts < trend.least) {
    return change(
      `It had ${trend.volts} V at its last check, less than ${Number(trend.least.toFixed(2))} V.`,
    );
  }
  const days = (now - last.start) / day_ms;
  const old =
    days > batteryCheck_days ? `It was last checked ${days.toFixed(0)} days ago.` : undefined;
  const left = trend?.castsLeft;
  const short =
    left !== undefined && left < castsToCome
      ? `By its trend it lasts only ${left} of the next ${castsToCome} casts (95 %).`
      : undefined;
  if (old === undefined && short === undefined) return [];
  return [
    at(
      "Check the battery pack, and change it if it is low.",
      [old, short].filter((reason) => reason !== undefined).join(" "),
      hazards,
    ),
  ];
};

export const preCastCheck: NextCastCheck = (timeline, at) =>
  sinceLastCast(timeline).some(({ event }) => event.action === "pre-cast-check")
    ? []
    : [
        at(
          "Make the pre-cast check: cell wet and clear, tubing joined, pump and connectors sound. Note the deck readings.",
          "The record has none since the last cast.",
        ),
      ];
