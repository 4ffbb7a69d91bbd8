// Rules on how cleanings were done.
import { cross } from "d3-array";
import { productOf } from "../../chemistry/mixing.js";
import type { Solution } from "../../ladder/intensity.js";
import { cleaningRank, entriesAfter, isOf } from "../recordEntries.js";
import type { Breach, RecordRule } from "../recordRule.js";
import { type Cleaner, chemicalsOf, cleanersOf, strengthIn } from "../recordSubstance.js";
import { day_ms, type Entry, pauseAfter, type Timeline } from "../recordTimeline.js";

const customary = "common practice, no source";

export const noFinalFlush: RecordRule = {
  name: "no-final-flush",
  severity: "warning",
  source: customary,
  find: (timeline) =>
    timeline.entries
      .filter(
        (entry) =>
          cleanersOf(entry.event).length > 0 &&
          entry.event.rinsed !== true &&
          !flushedLater(entry, timeline),
      )
      .map((entry): Breach => {
        const what = `${cleanersOf(entry.event).join(" and ")} of this ${entry.event.action}`;
        return entry.event.rinsed === false
          ? {
              entry,
              because: `The ${what} was not flushed out. Every cleaning ends with deionised water.`,
            }
          : {
              entry,
              severity: "note",
              because: `It does not say whether the ${what} was flushed out.`,
            };
      }),
};

/** A later rinse, before the next cast, of every cell of the entry. */
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
                because: `${kind === "detergent" ? "Detergent" : "Hypochlorite"} stood in the line with the oxygen sensor in it. Take the sensor out first, or keep the solution moving and drain it.`,
              })),
          ),
};

export const tooStrong: RecordRule = {
  name: "too-strong",
  severity: "warning",
  source: customary,
  find: (timeline) =>
    timeline.entries.flatMap((entry): readonly Breach[] => {
      const { concentration, solution = "" } = entry.event;
      const [kind, ...more] = chemicalsOf(entry.event);
      if (kind === undefined) return [];
      if (more.length > 0) {
        return concentration === undefined
          ? []
          : note(
              entry,
              `${concentration} could be of ${[kind, ...more].join(" or ")}. Write one line for each.`,
            );
      }
      const found = strengthIn(concentration ?? solution, kind);
      if (found === undefined) {
        return concentration === undefined
          ? []
          : note(
              entry,
              `"${concentration}" of ${kind} is not understood. Write for instance 1 %, 1000 ppm or 0.1 mol/l.`,
            );
      }
      const [least, most] = found;
      const [limit, unit] = strongest(timeline, kind);
      const written = `"${concentration ?? solution}" of ${kind}`;
      if (least > allowance * limit) {
        return [
          { entry, because: `${written} is more than the ${limit} ${unit} of the procedure.` },
        ];
      }
      return most > allowance * limit
        ? note(
            entry,
            `${written} is ${least} to ${most} ${unit}, by the stock it was made from. Write the strength.`,
          )
        : [];
    }),
};

function note(entry: Entry, because: string): readonly Breach[] {
  return [{ entry, severity: "note", because }];
}

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

export const dangerousMixture: RecordRule = {
  name: "dangerous-mixture",
  severity: "danger",
  source: customary,
  find: ({ entries, cells }) => {
    const faults = new Map<Entry, Breach>();
    for (const cell of cells) {
      let unflushed: readonly Cleaner[] = [];
      for (const entry of entries.filter((other) => isOf(other, cell))) {
        const held = [...new Set([...unflushed, ...cleanersOf(entry.event)])];
        const known = cross(held, held, productOf).find((product) => product !== undefined);
        if (known !== undefined && cleanersOf(entry.event).length > 0) {
          faults.set(entry, {
            entry,
            source: known.source,
            because:
              `${known.pair.join(" and ")} met without a flush between. Together they give ${known.gives}.`.replace(
                /^./,
                (first) => first.toUpperCase(),
              ),
          });
        }
        unflushed = isFlush(entry) || entry.event.rinsed === true ? [] : held;
      }
    }
    return [...faults.values()];
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
      return [{ because: `The record has no rinse after any of ${over.length} casts.` }];
    }
    return over
      .filter((i) =>
        entriesAfter(timeline, i).every(
          (entry) => cleaningRank(entry) < 0 && entry.event.rinsed !== true,
        ),
      )
      .map((cast) => ({
        cast,
        because: `The record has no rinse after cast ${casts[cast]!.id}. Salt water that dries in the cell leaves salt on the electrodes.`,
      }));
  },
};
