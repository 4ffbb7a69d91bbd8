// From the history of a cell to its prior on the next cruise. The uncertainty grows with the time between, and with the
// port call.
import type { CellPrior } from "../model/cellPrior.js";
import type { CleaningOutcome } from "../model/recovery.js";
import type { CellRecord } from "./cellRecord.js";
import { calibrationAfter, driftVariance } from "./driftVariance.js";
import { inOrderOfTime } from "./inOrderOfTime.js";

/** A cell at the start of a cruise. */
export interface CellAtStart {
  readonly serial: string;
  /** Start of the cruise's first cast, ISO 8601 UTC. */
  readonly start: string;
  /** Day of its calibration, if the cruise gives it. */
  readonly calibrated?: string;
  /** Whether the record has a cleaning before the first cast. */
  readonly cleaned?: boolean;
}

/** The results that a cruise starts from, and their source. */
export interface HistoryPrior {
  readonly serial: string;
  /** The last cruise before. */
  readonly cruise: string;
  readonly days: number;
  readonly cellPrior: CellPrior;
  /** Day of a later calibration, if the records have one; "" without a day. */
  readonly calibratedSince?: string;
  /** Outcomes of past cleanings, over all earlier cruises, in order of time. */
  readonly outcomes: readonly Omit<CleaningOutcome, "cell">[];
  /** The usual response of the cell. */
  readonly response: CellRecord["response"];
}

/**
 * Probability of an unrecorded change of the cell at a port call: a repair, a knock, another cell under the old number
 * (judgement: one port call in ten; a history that is too certain costs more than one that is too cautious).
 */
const unrecordedInPort = 0.1;
/**
 * If the day of calibration is not given on both sides, the cell may have been calibrated between them: once a year (common
 * practice, no source).
 */
const calibrated_days = 365;
/** Batches of standard seawater scatter by 0.0003 in salinity [KawanoEtAl2006], 8 ppm: the next cruise opens another. */
const standards_ppm = 8;
/** Change of the pressure response with another frame and other cables, ppm per 1000 dbar (judgement). */
const pressureChange = 2;

/**
 * Probability that a film survives a port call without a record: a cell is rinsed, and dries or stands in clean water
 * (judgement; no published case).
 */
const filmSurvivesPort = 0.6;
/** Standard deviation of the change of the film in port, as a share of its size (judgement). */
const filmChanges = 0.3;

/**
 * What a cell starts a cruise with, from its records of earlier cruises.
 * @param records of any cells; those of this cell that ended before the cruise began count
 * @returns undefined if there are none
 */
export function priorFromHistory(
  records: readonly CellRecord[],
  { serial, start, calibrated, cleaned = false }: CellAtStart,
): HistoryPrior | undefined {
  const at = Date.parse(start);
  const own = inOrderOfTime(
    records.filter((record) => record.serial === serial && Date.parse(record.to.start ?? "") < at),
  );
  const last = own.at(-1);
  if (last === undefined) return undefined;
  const days = (at - Date.parse(last.to.start!)) / 86_400_000;
  const since = calibratedSince(last, calibrated);
  const sameDay = calibrated !== undefined && calibrated === last.calibrated;
  const clean = last.cleanGain.last;
  const pressure = last.pressureResponse;
  // A laboratory that calibrates a cell also cleans it.
  const film = since === undefined && !cleaned ? last.filmAtEnd : undefined;
  return {
    serial,
    cruise: last.cruise,
    days,
    cellPrior: {
      probability:
        (1 - unrecordedInPort) *
        (sameDay || since !== undefined ? 1 : Math.exp(-days / calibrated_days)),
      ...(since === undefined
        ? {
            clean: {
              mean: clean.ppm,
              sd: Math.hypot(
                clean.standardUncertainty,
                Math.sqrt(driftVariance(days)),
                standards_ppm,
              ),
            },
          }
        : {}),
      pressure: {
        mean: pressure.ppmPer1000dbar,
        sd: Math.hypot(pressure.standardUncertainty, pressureChange),
      },
      ...(film === undefined
        ? {}
        : {
            film: {
              mean: film.ppm,
              sd: Math.hypot(film.standardUncertainty, filmChanges * film.ppm),
              probability: filmSurvivesPort * film.probability,
            },
          }),
    },
    ...(since === undefined ? {} : { calibratedSince: since }),
    outcomes: own.flatMap(({ cleanings }) => cleanings.map(outcomeOf)),
    response: last.response,
  };
}

/** The day of a calibration between, "" if the day is unknown; undefined without a calibration. */
function calibratedSince(last: CellRecord, calibrated: string | undefined): string | undefined {
  if (calibrated !== undefined && last.calibrated !== undefined)
    return calibrated === last.calibrated ? undefined : calibrated;
  const ended = Date.parse(last.to.start!);
  if (calibrated !== undefined && Date.parse(calibrated) > ended) return calibrated;
  const later = calibrationAfter(last);
  return later === undefined ? undefined : (later.time ?? "").slice(0, 10);
}

/** The old film is not the present film, because a port call lies between (judgement). */
function outcomeOf(told: CellRecord["cleanings"][number]): Omit<CleaningOutcome, "cell"> {
  const { intensity, retained, standardUncertainty, filmProbability } = told;
  return {
    intensity,
    retained: { mean: retained, sd: standardUncertainty },
    filmProbability,
    sameFilm: 0,
  };
}
