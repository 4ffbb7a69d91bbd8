// Results of a cruise for each of its cells, from its verdicts: the records of their histories.
import type { CellName } from "../../cast/cast.js";
import type { Cruise } from "../../cast/cruise.js";
import { isOf } from "../../cleaning/record/recordEntries.js";
import { recordOfCruise } from "../../cleaning/record/recordOfCruise.js";
import { type Timeline, timelineOf } from "../../cleaning/record/recordTimeline.js";
import type { CellRecord } from "../../history/cellRecord.js";
import { historyFormat } from "../../history/historyFormat.js";
import type { Estimate } from "../../model/parts.js";
import { signsOfSoundCell } from "../../model/responseSigns.js";
import { usualResponse } from "../../response/usualResponse.js";
import type { VerdictDocument } from "../verdict.js";
import { cleaningsSeen, cleansFilms, filmsSeen, type OwnCast, shiftsSeen } from "./eventsSeen.js";

/** Any time, because only the order of the entries is used here. */
const epoch = "1970-01-01T00:00:00Z";

/**
 * One record for each cell with a known serial number, in order of serial. A cell without a serial number has no history,
 * because it cannot be identified.
 * @param cruise   the cruise as it was assessed
 * @param document the result of `assessCruise` for it
 * @throws RangeError if the document has other casts than the cruise
 */
export function cellHistory(cruise: Cruise, document: VerdictDocument): readonly CellRecord[] {
  const ids = cruise.casts.map(({ id }) => id).join(" ");
  if (document.casts.map(({ cast }) => cast).join(" ") !== ids)
    throw new RangeError(
      "expected verdicts on the casts of this cruise, found verdicts of another",
    );
  const bySerial = new Map<string, OwnCast[]>();
  for (const [at, whole] of document.casts.entries()) {
    for (const [name, verdict] of Object.entries(whole.cells)) {
      const { serial } = verdict;
      if (serial === undefined) continue;
      const { id, start } = cruise.casts[at]!;
      const own = { at, id, cell: name as CellName, verdict, whole };
      const seen = bySerial.get(serial) ?? [];
      bySerial.set(serial, [...seen, start === undefined ? own : { ...own, start }]);
    }
  }
  const cells = [...new Set(document.casts.flatMap(({ cells }) => Object.keys(cells)))];
  const timeline = timelineOf(recordOfCruise(cruise, cells as CellName[], epoch));
  return [...bySerial]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([serial, casts]) => recordOf(cruise, document, timeline, serial, casts));
}

function recordOf(
  cruise: Cruise,
  { software }: VerdictDocument,
  timeline: Timeline,
  serial: string,
  casts: readonly OwnCast[],
): CellRecord {
  const [first, last] = [casts[0]!, casts.at(-1)!];
  const cruiseStart = cruise.casts[0]!.start;
  const hours = casts.flatMap(({ at }) => timeline.casts[at]?.hours ?? []);
  const calibrations = calibrationsOf(timeline, serial, casts);
  const calibrated = calibratedOn(cruise, serial, last, calibrations);
  const { ppmPer1000dbar, standardUncertainty } = last.verdict.pressureResponse;
  return {
    format: historyFormat,
    cruise: cruise.name,
    ...(cruiseStart === undefined ? {} : { cruiseStart }),
    serial,
    cell: last.cell,
    from: castAt(first),
    to: castAt(last),
    casts: casts.length,
    ...(hours.length === 0 ? {} : { inWater_hours: hours.reduce((sum, own) => sum + own, 0) }),
    ...(calibrated === undefined ? {} : { calibrated }),
    target: cruise.target,
    gainError: { first: ppm(first.verdict.gainError.up), last: ppm(last.verdict.gainError.up) },
    cleanGain: { first: ppm(first.verdict.cleanGain), last: ppm(last.verdict.cleanGain) },
    pressureResponse: { ppmPer1000dbar, standardUncertainty },
    response: responseOf(casts),
    films: filmsSeen(casts),
    ...filmAtEnd(timeline, last),
    cleanings: cleaningsSeen(casts),
    shifts: shiftsSeen(casts),
    calibrations: calibrations.map(({ afterCast, time }) => ({
      ...(afterCast === undefined ? {} : { afterCast }),
      ...(time === undefined ? {} : { time }),
    })),
    software,
  };
}

/** A film on the last cast, if nobody is known to have done more than rinse since. */
function filmAtEnd(
  { entries }: Timeline,
  { at, cell, verdict }: OwnCast,
): Pick<CellRecord, "filmAtEnd"> {
  const fouling = verdict.causes[0]?.cause === "fouling" ? verdict.causes[0] : undefined;
  const isCleaned = entries.some(
    (entry) => entry.after >= at && isOf(entry, cell) && cleansFilms(entry.event.action),
  );
  if (fouling === undefined || isCleaned) return {};
  const { gainError, cleanGain } = verdict;
  return {
    filmAtEnd: {
      probability: fouling.probability,
      ppm: Math.min(0, gainError.up.ppm - cleanGain.ppm),
      standardUncertainty: Math.hypot(
        gainError.up.standardUncertainty,
        cleanGain.standardUncertainty,
      ),
    },
  };
}

function castAt({ id, start }: OwnCast): CellRecord["from"] {
  return { cast: id, ...(start === undefined ? {} : { start }) };
}

function ppm({ ppm, standardUncertainty }: Estimate) {
  return { ppm, standardUncertainty };
}

interface Calibration {
  /** Index of the cast that it followed; -1 before the first, NaN if unknown. */
  readonly after: number;
  readonly afterCast?: string;
  readonly time?: string;
}

function calibrationsOf(
  { entries }: Timeline,
  serial: string,
  casts: readonly OwnCast[],
): readonly Calibration[] {
  return entries.flatMap((entry): readonly Calibration[] => {
    const { event, after } = entry;
    if (event.action !== "calibration") return [];
    const near = casts.findLast(({ at }) => at <= after) ?? casts[0]!;
    const own = event.serial === undefined ? isOf(entry, near.cell) : event.serial === serial;
    if (!own) return [];
    const { afterCast, time } = event;
    return [
      {
        after,
        ...(afterCast === undefined ? {} : { afterCast }),
        ...(time === undefined ? {} : { time }),
      },
    ];
  });
}

/** The date of the calibration that the last readings are based on. */
function calibratedOn(
  { instrument: { sensors, spares = [] } }: Cruise,
  serial: string,
  last: OwnCast,
  calibrations: readonly Calibration[],
): string | undefined {
  const before = calibrations.findLast(({ after }) => after < last.at);
  if (before !== undefined) return before.time?.slice(0, 10);
  const line = Object.values(sensors ?? {}).find(({ cell }) => cell === serial);
  return line?.cellCalibrated ?? spares.find((spare) => spare.serial === serial)?.calibrated;
}

function responseOf(casts: readonly OwnCast[]): CellRecord["response"] {
  const seen = casts.flatMap(({ whole, cell }) => whole.response?.[cell] ?? []);
  const usual = (
    which: "lag" | "delay",
    values: readonly { readonly value: number; readonly standardUncertainty: number }[],
  ) => {
    const found = usualResponse(values, {
      standardDeviation: signsOfSoundCell[which].standardUncertainty,
      isLowerLimit: false,
    });
    if (found === undefined) return {};
    const { value, standardUncertainty } = found;
    return { [which]: { value, standardUncertainty } };
  };
  return {
    ...usual(
      "lag",
      seen.flatMap(({ thermalLag: own }) =>
        own === undefined
          ? []
          : [{ value: own.timesUsual, standardUncertainty: own.standardUncertainty }],
      ),
    ),
    ...usual(
      "delay",
      seen.flatMap(({ alignment: own }) =>
        own === undefined
          ? []
          : [{ value: own.seconds, standardUncertainty: own.standardUncertainty }],
      ),
    ),
  };
}
