// Rules on the upkeep of the instrument: storage, battery, seals, calibration.
import { packVolts } from "../battery.js";
import { cleaningRank, entriesAfter, isOf } from "../recordEntries.js";
import type { Breach, RecordRule } from "../recordRule.js";
import { day_ms, type Entry, pauseAfter, type Timeline } from "../recordTimeline.js";

const customary = "common practice, no source";
/** Longest time for which a cell may stay as it came up (common practice, no source). */
export const longStorage_days = 3;
/** A cast of at least this many hours is long (common practice, no source). */
const longCast_hours = 4;
/** Conductivity cells are calibrated every year (common practice, no source). */
export const calibration_days = 365;

export const longStorage: RecordRule = {
  name: "long-storage",
  severity: "warning",
  source: customary,
  find: (timeline) =>
    timeline.casts.flatMap((cast, i): readonly Breach[] => {
      const days = pauseAfter(timeline, i) / day_ms;
      if (!(days > longStorage_days)) return [];
      const own = entriesAfter(timeline, i);
      const missing = [
        ...(own.some((entry) => cleaningRank(entry) >= 1) ? [] : ["cleaned with detergent"]),
        ...(own.some(({ event }) => event.action === "plugs") ? [] : ["closed off with plugs"]),
      ];
      if (missing.length === 0) return [];
      const storage = own.find(({ event }) => event.action === "storage");
      return [
        {
          cast: i,
          ...(storage === undefined ? {} : { entry: storage }),
          because: `After cast ${cast.id} the cell was stored for ${days.toFixed(0)} days and was not ${missing.join(" nor ")}.`,
        },
      ];
    }),
};

export const weakBattery: RecordRule = {
  name: "weak-battery",
  severity: "warning",
  source: customary,
  find: (timeline) => {
    const checks = timeline.entries.filter(({ event }) => event.action === "battery");
    return checks.flatMap((entry, i): readonly Breach[] => {
      const pack = packVolts(entry);
      if (pack === undefined) {
        return entry.event.batteryVolts === undefined
          ? []
          : [
              {
                entry,
                severity: "note",
                because:
                  "The pack cannot be judged. The record does not say how many cells of which kind it has.",
              },
            ];
      }
      if (pack.volts >= pack.least || !longCastBefore(timeline, entry, checks[i + 1])) return [];
      return [
        {
          entry,
          because: `The pack has ${pack.volts} V. Before a long cast ${entry.event.batteryCells} ${entry.event.batteryKind} cells should have ${Number(pack.least.toFixed(2))} V.`,
        },
      ];
    });
  },
};

/** Whether a long cast, or one of unknown duration, comes before the next check or is still to come. */
function longCastBefore({ casts }: Timeline, entry: Entry, next: Entry | undefined): boolean {
  const from = entry.after + 1;
  const until = next === undefined ? casts.length : next.after + 1;
  const between = casts.slice(from, until);
  if (next === undefined && until === casts.length && between.length === 0) return true;
  return between.some(({ hours }) => hours === undefined || hours >= longCast_hours);
}

export const sealsNotInspected: RecordRule = {
  name: "seals-not-inspected",
  severity: "warning",
  source: customary,
  find: (timeline) =>
    openedWithoutSeals(timeline).map((entry) => ({
      entry,
      because:
        "A housing was opened. The record has no inspection of its seals and end cap before the next cast.",
    })),
};

/** Openings of a housing without an inspection of the seals before the next cast. */
export function openedWithoutSeals({ entries }: Timeline): readonly Entry[] {
  return entries.filter(
    (entry, i) =>
      entry.event.action === "housing-opened" &&
      !entries.some(
        (other, k) =>
          other.event.action === "seals" &&
          other.after === entry.after &&
          (k > i || Number.isNaN(other.start) || other.start === entry.start),
      ),
  );
}

export const calibrationOutOfDate: RecordRule = {
  name: "calibration-out-of-date",
  severity: "warning",
  source: customary,
  find: (timeline) =>
    calibrationAges(timeline).flatMap(({ cell, entry, days }): readonly Breach[] => {
      if (Number.isNaN(days)) {
        return [
          { severity: "note", because: `The record has no calibration of the ${cell} cell.` },
        ];
      }
      return days > calibration_days
        ? [
            {
              ...(entry === undefined ? {} : { entry }),
              because: `The ${cell} cell's calibration is ${days.toFixed(0)} days old, more than ${calibration_days}.`,
            },
          ]
        : [];
    }),
};

/**
 * For each cell, its last calibration and its age now. If an exchange fitted the cell, the calibration is that of the spare
 * with its serial number, or the date of the exchange if that is unknown; otherwise that of the instrument at the start of
 * the cruise. `days` is NaN if unknown.
 */
export function calibrationAges({ entries, cells, instrument, now }: Timeline) {
  return cells.map((cell) => {
    const entry = entries.findLast(
      (other) =>
        isOf(other, cell) &&
        (other.event.action === "calibration" || other.event.action === "exchange") &&
        !Number.isNaN(other.start),
    );
    const spare = instrument.spares?.find(
      ({ kind, serial }) =>
        kind === "cell" && entry?.event.action === "exchange" && serial === entry.event.serial,
    );
    const day =
      entry === undefined ? instrument.sensors?.[cell]?.cellCalibrated : spare?.calibrated;
    const from = day === undefined ? (entry?.start ?? Number.NaN) : Date.parse(day);
    return { cell, entry, days: (now - from) / day_ms };
  });
}

/** An exchange or a calibration without the name of the sensor. */
export const noSerial: RecordRule = {
  name: "no-serial",
  severity: "note",
  source: customary,
  find: ({ entries }) =>
    entries.flatMap((entry): readonly Breach[] => {
      const { action, serial } = entry.event;
      if ((action !== "exchange" && action !== "calibration") || serial !== undefined) return [];
      return [
        {
          entry,
          because: `The ${action} names no serial number. Nobody can tell later which cell it was.`,
        },
      ];
    }),
};
