// Work on the cells before the next cast: frost, rinse, wet or dry, a reading in air.
import { group } from "d3-array";
import { namesOf } from "../due.js";
import { keptCells } from "../keptCell.js";
import { cleaningRank, isOf } from "../recordEntries.js";
import { longStorage_days } from "../recordRules/keeping.js";
import { day_ms } from "../recordTimeline.js";
import { type NextCastCheck, sinceLastCast } from "./nextCastCheck.js";

/** Fresh water freezes at 0; wind, a clear sky and a forecast's error add 2 (judgement), degree C. */
const frost_C = 2;
/** A cell that was dry for longer must be wetted before the cast (judgement). */
const dry_days = 1;
/** A reading in air is valid for this long (judgement): an offset of the electronics changes slowly. */
const airReading_days = 7;

export const frost: NextCastCheck = (timeline, at, { air_C }) => {
  const frozen = sinceLastCast(timeline).some(({ event }) =>
    /\b(?:frozen|froze|freezing|ice|frost)\b/i.test(event.note ?? ""),
  );
  const wet = keptCells(timeline).filter(({ state }) => state !== "dry");
  const name = namesOf(
    wet.map(({ cell }) => cell),
    timeline.cells,
  );
  return [
    ...(air_C !== undefined && air_C <= frost_C && wet.length > 0
      ? [
          at(
            `Drain ${name}, or keep the package where it cannot freeze. Warm it up before the cast.`,
            `Down to ${air_C} degree C is expected on deck. Water that freezes in a cell breaks it.`,
          ),
        ]
      : []),
    ...(frozen
      ? [
          at(
            "Look for cracks in the cells and the plumbing. Compare with bottles on the next cast.",
            "The record mentions frost since the last cast.",
          ),
        ]
      : []),
  ];
};

export const rinse: NextCastCheck = (timeline, at) => {
  const { cells, casts } = timeline;
  if (casts.length === 0) return [];
  const since = sinceLastCast(timeline);
  const unrinsed = cells.filter((cell) =>
    since.every(
      (entry) =>
        !isOf(entry, cell) ||
        entry.event.rinsed === false ||
        (cleaningRank(entry) < 0 && entry.event.rinsed !== true),
    ),
  );
  if (unrinsed.length === 0) return [];
  return [
    at(
      `Rinse ${namesOf(unrinsed, cells)} with deionised water.`,
      `The record has no rinse since cast ${casts.at(-1)!.id}.`,
    ),
  ];
};

export const kept: NextCastCheck = (timeline, at) => {
  const says = keptCells(timeline).flatMap(({ cell, state, days }) => {
    const long = `${days.toFixed(0)} ${Math.round(days) === 1 ? "day" : "days"}`;
    if (state === "dry" && days > dry_days) {
      return [
        {
          cell,
          todo: "Fill # with deionised water and let it stand until the cast.",
          because: `Kept dry for ${long}: air bubbles cling to a dry bore.`,
        },
      ];
    }
    if (state === "wet" && days > longStorage_days) {
      return [
        {
          cell,
          todo: "Change the water in #.",
          because: `Kept wet for ${long}: standing water grows slime.`,
        },
      ];
    }
    if (state === "unsaid" && days > dry_days) {
      return [
        {
          cell,
          todo: "Check #: wet or dry? Write it down.",
          because: `The last entry, ${long} ago, does not say.`,
        },
      ];
    }
    return [];
  });
  return [...group(says, ({ todo, because }) => `${todo} ${because}`).values()].map((same) => {
    const { todo, because } = same[0]!;
    const name = namesOf(
      same.map(({ cell }) => cell),
      timeline.cells,
    );
    return at(todo.replace("#", name), because);
  });
};

export const airReadings: NextCastCheck = ({ entries, cells, now }, at) => {
  const ages = cells.map((cell) => {
    const last = entries.findLast(
      (entry) => isOf(entry, cell) && entry.event.action === "air-reading",
    );
    return { cell, days: last === undefined ? undefined : (now - last.start) / day_ms };
  });
  const late = ages.filter(({ days }) => days === undefined || days > airReading_days);
  if (late.length === 0) return [];
  const oldest = late.some(({ days }) => days === undefined)
    ? "The record has none"
    : `The last is ${Math.max(...late.map(({ days }) => days!)).toFixed(0)} days old`;
  return [
    at(
      `Recommended: a reading in air of ${namesOf(
        late.map(({ cell }) => cell),
        cells,
      )}, rinsed and drained. Write it down as air-reading, one line a cell.`,
      `${oldest}. An offset of the electronics shows only in air.`,
    ),
  ];
};
