// Rules on impossible entries: times compared with now, with the casts, and with each other.

import { cleaningRank, isOf } from "../recordEntries.js";
import type { RecordRule } from "../recordRule.js";
import type { Entry, Timeline } from "../recordTimeline.js";

const error = { severity: "error", source: "the record itself" } as const;

export const noTime: RecordRule = {
  name: "no-time",
  ...error,
  find: ({ entries }) =>
    entries
      .filter(({ event, start }) =>
        event.time === undefined ? event.afterCast === undefined : Number.isNaN(start),
      )
      .map((entry) => ({
        entry,
        because:
          entry.event.time === undefined
            ? "It says neither when it was done nor after which cast."
            : `${entry.event.time} is not a time. Write it as 2026-03-01T12:00:00Z.`,
      })),
};

export const future: RecordRule = {
  name: "time-in-the-future",
  ...error,
  find: ({ entries, now }) =>
    entries
      .filter(({ start }) => start > now)
      .map((entry) => ({ entry, because: `${entry.event.time} is in the future.` })),
};

export const unknownCast: RecordRule = {
  name: "unknown-cast",
  ...error,
  find: ({ entries, casts }) =>
    entries
      .filter(
        ({ event }) =>
          event.afterCast !== undefined && casts.every(({ id }) => id !== event.afterCast),
      )
      .map((entry) => ({
        entry,
        because: `There is no cast ${entry.event.afterCast} in this cruise.`,
      })),
};

export const contradictsCast: RecordRule = {
  name: "contradicts-cast",
  ...error,
  find: (timeline) =>
    timeline.entries.flatMap((entry) => {
      const because = contradiction(entry, timeline);
      return because === undefined ? [] : [{ entry, because }];
    }),
};

function contradiction(
  { event, start, end, after }: Entry,
  { casts }: Timeline,
): string | undefined {
  const cast = casts[after];
  const next = casts[after + 1];
  if (cast !== undefined && start < cast.startTime) {
    return `The record has it after cast ${cast.id}, which began only at ${cast.start}.`;
  }
  if (next !== undefined && start >= next.startTime) {
    return `The record has it ${cast === undefined ? "before the first cast" : `after cast ${cast.id}`}, but cast ${next.id} had begun at ${next.start}.`;
  }
  if (cast !== undefined && start < cast.endTime) {
    return `Cast ${cast.id} was in the water then, for ${cast.hours} hours from ${cast.start}.`;
  }
  if (next !== undefined && end > next.startTime) {
    return `It took ${event.minutes} minutes, but cast ${next.id} began at ${next.start}, before it was over.`;
  }
  return undefined;
}

export const overlap: RecordRule = {
  name: "overlap",
  ...error,
  find: ({ entries, cells }) => {
    const faults = new Map<Entry, string>();
    for (const cell of cells) {
      const own = entries
        .filter(
          (entry) => isOf(entry, cell) && cleaningRank(entry) >= 0 && !Number.isNaN(entry.start),
        )
        .sort((a, b) => a.start - b.start);
      own.forEach((entry, i) => {
        const earlier = own.slice(0, i).find(({ end }) => end > entry.start);
        if (earlier === undefined) return;
        faults.set(
          entry,
          `The ${cell} cell's ${earlier.event.action} of ${earlier.event.time} took ${earlier.event.minutes} minutes, past the start of this ${entry.event.action}.`,
        );
      });
    }
    return [...faults].map(([entry, because]) => ({ entry, because }));
  },
};
