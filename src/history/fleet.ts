// The cells of a fleet compared: how often each fouls, which cleaning works on which film, and which cell is due for
// calibration.
import { group, sum } from "d3-array";
import { type IntensityName, intensityNames } from "../cast/maintenance.js";
import { gainForSalinity } from "../model/salinityError.js";
import { mixtureBeyond } from "../statistics/mixture.js";
import type { CellRecord } from "./cellRecord.js";
import { calibrationAfter, driftVariance } from "./driftVariance.js";
import { inOrderOfTime } from "./inOrderOfTime.js";

/** A cell goes for calibration once a year (common practice, no source). */
export const calibrationInterval_days = 365;
/** A cleaning worked if it left less of the film than this (judgement: half). */
const worked = 0.5;

/** Number of trials of a cleaning on a kind of film, and their outcomes. */
export interface CleaningTried {
  readonly intensity: IntensityName;
  readonly film: "step" | "drift" | "unknown";
  readonly tried: number;
  readonly worked: number;
  /** Mean share of the film that stayed. */
  readonly retained: number;
}

export interface FleetCell {
  readonly serial: string;
  readonly cruises: number;
  readonly casts: number;
  readonly inWater_hours?: number;
  readonly films: number;
  readonly filmsPer100Casts: number;
  /** Over the cruises with times; absent without any. */
  readonly filmsPer100Hours?: number;
  readonly cleanings: readonly CleaningTried[];
  /** The latest value. */
  readonly cleanGain: { readonly ppm: number; readonly standardUncertainty: number };
  /** Probability that its clean gain is beyond the target by now, from its last value and the random walk since. */
  readonly probabilityBeyondTarget: number;
  readonly calibrated?: string;
  readonly daysSinceCalibration?: number;
  readonly lastSeen?: string;
  /** The reason why it is due for calibration; empty if it is not. */
  readonly due: readonly ("by date" | "by drift")[];
}

export interface Fleet {
  readonly cells: readonly FleetCell[];
  /** Of all cells together. */
  readonly cleanings: readonly CleaningTried[];
}

/**
 * All cells that have records, with their latest values, and the outcomes of cleanings.
 * @param now    ISO 8601 UTC
 * @param target required salinity accuracy, PSS-78; that of each cell's last cruise if absent
 */
export function fleetOf(
  records: readonly CellRecord[],
  { now, target }: { readonly now: string; readonly target?: number },
): Fleet {
  const cells = [...group(inOrderOfTime(records), ({ serial }) => serial)]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([serial, own]) => cellOf(serial, own, Date.parse(now), target));
  return { cells, cleanings: cleaningsTried(records) };
}

function cellOf(
  serial: string,
  own: readonly CellRecord[],
  now: number,
  target: number | undefined,
): FleetCell {
  const last = own.at(-1)!;
  const casts = sum(own, (record) => record.casts);
  const films = sum(own, (record) => record.films.length);
  const timed = own.filter(({ inWater_hours }) => inWater_hours !== undefined);
  const hours = sum(timed, ({ inWater_hours = 0 }) => inWater_hours);
  const filmsTimed = sum(timed, (record) => record.films.length);
  const beyond = probabilityBeyond(last, now, target);
  const since = calibratedDays(last, now);
  return {
    serial,
    cruises: own.length,
    casts,
    films,
    filmsPer100Casts: (100 * films) / casts,
    ...(hours > 0 ? { inWater_hours: hours, filmsPer100Hours: (100 * filmsTimed) / hours } : {}),
    cleanings: cleaningsTried(own),
    cleanGain: last.cleanGain.last,
    probabilityBeyondTarget: beyond,
    ...since,
    ...(last.to.start === undefined ? {} : { lastSeen: last.to.start.slice(0, 10) }),
    due: [
      ...((since.daysSinceCalibration ?? 0) >= calibrationInterval_days
        ? (["by date"] as const)
        : []),
      ...(beyond > 0.5 ? (["by drift"] as const) : []),
    ],
  };
}

/** A calibration after its last cast makes its clean gain unknown: 0. */
function probabilityBeyond(last: CellRecord, now: number, target = last.target): number {
  if (calibrationAfter(last)) return 0;
  const { ppm, standardUncertainty } = last.cleanGain.last;
  const days = Math.max(0, (now - Date.parse(last.to.start ?? "")) / 86_400_000) || 0;
  const variance = standardUncertainty ** 2 + driftVariance(days);
  return mixtureBeyond([{ weight: 1, mean: ppm, variance }], Math.abs(gainForSalinity(-target)));
}

function calibratedDays(
  last: CellRecord,
  now: number,
): Pick<FleetCell, "calibrated" | "daysSinceCalibration"> {
  const calibrated = calibrationAfter(last)?.time?.slice(0, 10) ?? last.calibrated;
  if (calibrated === undefined) return {};
  return { calibrated, daysSinceCalibration: (now - Date.parse(calibrated)) / 86_400_000 };
}

function cleaningsTried(records: readonly CellRecord[]): readonly CleaningTried[] {
  const all = records.flatMap(({ cleanings }) => cleanings);
  const groups = [...group(all, ({ intensity, film }) => `${intensity} ${film}`).values()];
  return groups
    .map((same): CleaningTried => {
      const { intensity, film } = same[0]!;
      return {
        intensity,
        film,
        tried: same.length,
        worked: same.filter(({ retained }) => retained < worked).length,
        retained: sum(same, ({ retained }) => retained) / same.length,
      };
    })
    .sort(
      (a, b) =>
        intensityNames.indexOf(a.intensity) - intensityNames.indexOf(b.intensity) ||
        (a.film < b.film ? -1 : 1),
    );
}
