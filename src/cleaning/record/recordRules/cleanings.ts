// How cleanings were done.
import type { Solution } from "../../ladder/intensity.js";
import type { Breach, RecordRule } from "../recordRule.js";
import { chemicalsOf, concentrationIn } from "../recordSubstance.js";
import {
  cleaningRank,
  day_ms,
  type Entry,
  entriesAfter,
  isOf,
  pauseAfter,
  type Timeline,
} from "../recordTimeline.js";

const customary = "common practice, no source";

export const noFinalFlush: RecordRule = {
  name: "no-final-flush",
  severity: "warning",
  source: customary,
  find: (timeline) =>
    timeline.entries
      .filter(
        (entry) =>
          chemicalsOf(entry.event).length > 0 &&
          entry.event.rinsed !== true &&
          !flushedLater(entry, timeline),
      )
      .map((entry): Breach => {
        const what = `${chemicalsOf(entry.event).join(" and ")} of this ${entry.event.action}`;
        return entry.event.rinsed === false
          ? {
              entry,
              because: `The ${what} was not flushed out: every cleaning ends with deionised water.`,
            }
          : {
              entry,
              severity: "note",
              because: `It does not say whether the ${what} was flushed out.`,
            };
      }),
};

/** A later rinse, before the next cast, of every cell that the entry was of. */
function flushedLater(entry: Entry, timeline: Timeline): boolean {
  const later = timeline.entries.slice(timeline.entries.indexOf(entry) + 1);
  return timeline.cells
    .filter((cell) => isOf(entry, cell))
    .every((cell) =>
      later.some((other) => other.after === entry.after && isOf(other, cell) && isFlush(other)),
    );
}

function isFlush({ event }: Entry): boolean {
  return event.action === "rinse" && event.rinsed !== false;
}

export const leftStanding: RecordRule = {
  name: "left-standing-in-oxygen-sensor",
  severity: "warning",
  source: customary,
  find: ({ entries, instrument }) =>
    instrument.oxygenSensorInLine !== true
      ? []
      : entries
          .filter(({ event }) => {
            const stood =
              event.soaked === true || (event.rinsed === false && event.drained !== true);
            return stood && event.oxygenSensorOut !== true;
          })
          .flatMap((entry) =>
            chemicalsOf(entry.event)
              .filter((kind) => kind !== "acid")
              .map((kind) => ({
                entry,
                because: `${kind === "detergent" ? "Detergent" : "Hypochlorite"} stood in the line with the oxygen sensor in it: take the sensor out first, or keep the solution moving and drain it.`,
              })),
          ),
};

export const tooStrong: RecordRule = {
  name: "too-strong",
  severity: "warning",
  source: customary,
  find: (timeline) =>
    timeline.entries.flatMap((entry): readonly Breach[] => {
      const { concentration } = entry.event;
      const [kind, ...more] = chemicalsOf(entry.event);
      if (concentration === undefined || kind === undefined) return [];
      if (more.length > 0) {
        return [
          {
            entry,
            severity: "note",
            because: `${concentration} could be of ${[kind, ...more].join(" or ")}: write one line for each.`,
          },
        ];
      }
      const found = concentrationIn(concentration, kind);
      if (Number.isNaN(found)) {
        return [
          {
            entry,
            severity: "note",
            because: `"${concentration}" of ${kind} is not understood: write for instance 1 %, 1000 ppm or 0.1 mol/l.`,
          },
        ];
      }
      const [most, unit] = strongest(timeline, kind);
      return found > allowance * most
        ? [
            {
              entry,
              because: `${concentration} of ${kind} is more than the ${most} ${unit} of the procedure.`,
            },
          ]
        : [];
    }),
};

/** Nobody measures better (judgement). */
const allowance = 1.1;

function strongest({ ladder }: Timeline, kind: Solution["kind"]): readonly [number, string] {
  return ladder
    .flatMap(({ solutions }) => solutions)
    .filter((solution) => solution.kind === kind)
    .reduce<readonly [number, string]>(
      (most, { concentration }) =>
        concentration !== undefined && concentration.value > most[0]
          ? [concentration.value, concentration.unit]
          : most,
      [0, ""],
    );
}

export const acidAndHypochlorite: RecordRule = {
  name: "acid-and-hypochlorite",
  severity: "danger",
  source: "[CDC1991]",
  find: ({ entries, cells }) => {
    const faults = new Map<Entry, string>();
    for (const cell of cells) {
      let unflushed: "acid" | "hypochlorite" | undefined;
      for (const entry of entries.filter((other) => isOf(other, cell))) {
        const found = chemicalsOf(entry.event).filter((kind) => kind !== "detergent");
        if (
          found.length === 2 ||
          found.some((kind) => unflushed !== undefined && kind !== unflushed)
        ) {
          faults.set(
            entry,
            "Acid and hypochlorite met without a flush between: together they give chlorine, a poisonous gas.",
          );
        }
        unflushed = found.at(-1) ?? unflushed;
        if (isFlush(entry) || entry.event.rinsed === true) unflushed = undefined;
      }
    }
    return [...faults].map(([entry, because]) => ({ entry, because }));
  },
};

export const noRinse: RecordRule = {
  name: "no-rinse-after-cast",
  severity: "warning",
  source: customary,
  find: (timeline) => {
    const { casts, entries } = timeline;
    const over = casts
      .map((_, i) => i)
      .filter((i) => i < casts.length - 1 || pauseAfter(timeline, i) > day_ms);
    if (over.length > 1 && entries.every((entry) => cleaningRank(entry) < 0)) {
      return [{ because: `After none of ${over.length} casts was a rinse written down.` }];
    }
    return over
      .filter((i) =>
        entriesAfter(timeline, i).every(
          (entry) => cleaningRank(entry) < 0 && entry.event.rinsed !== true,
        ),
      )
      .map((cast) => ({
        cast,
        because: `No rinse was written down after cast ${casts[cast]!.id}: salt water that dries in the cell leaves salt on the electrodes.`,
      }));
  },
};
