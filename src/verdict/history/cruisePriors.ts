// Results of the cell histories that a cruise starts from.
import type { CellName } from "../../cast/cast.js";
import type { Cruise } from "../../cast/cruise.js";
import type { MaintenanceEvent } from "../../cast/maintenance.js";
import { isOf } from "../../cleaning/record/recordEntries.js";
import { recordOfCruise } from "../../cleaning/record/recordOfCruise.js";
import { timelineOf } from "../../cleaning/record/recordTimeline.js";
import type { CellRecord } from "../../history/cellRecord.js";
import { type HistoryPrior, priorFromHistory } from "../../history/priorFromHistory.js";
import type { CellPrior, CellPriors } from "../../model/cellPrior.js";
import type { OutcomeOfCleaning } from "../../track/cleaningOutcomes.js";
import { cleansFilms } from "./eventsSeen.js";

/** Any time, because only the order of the entries is used here. */
const epoch = "1970-01-01T00:00:00Z";

export interface CruisePriors {
  readonly byCell: CellPriors;
  /** Outcomes of cleanings on earlier cruises. */
  readonly outcomes: readonly OutcomeOfCleaning[];
  /** The usual response of the cells, by cell. */
  readonly response: Readonly<Partial<Record<CellName, CellRecord["response"]>>>;
  /** Notes for a reader of the verdicts. */
  readonly notes: readonly string[];
}

/**
 * @param serials of the cells on the first cast
 * @param history records of any cells and cruises; those of these cells before this cruise count
 */
export function cruisePriors(
  cruise: Cruise,
  cells: readonly CellName[],
  serials: readonly (string | undefined)[],
  history: readonly CellRecord[] = [],
): CruisePriors {
  const byCell: Partial<Record<CellName, CellPrior>> = {};
  const response: Partial<Record<CellName, CellRecord["response"]>> = {};
  const outcomes: OutcomeOfCleaning[] = [];
  const notes: string[] = [];
  const { casts, instrument } = cruise;
  const start = casts[0]?.start;
  for (const [i, cell] of cells.entries()) {
    const serial = serials[i];
    if (serial === undefined || start === undefined) continue;
    const line = instrument.sensors?.[cell];
    const calibrated = line?.cell === serial ? line.cellCalibrated : undefined;
    const cleaned = isCleanedBefore(cruise, cells, cell);
    const at = { serial, start, cleaned, ...(calibrated === undefined ? {} : { calibrated }) };
    const found = priorFromHistory(history, at);
    if (found === undefined) continue;
    byCell[cell] = found.cellPrior;
    response[cell] = found.response;
    outcomes.push(...found.outcomes.map((one) => ({ ...one, cell, afterCast: found.cruise })));
    notes.push(noteOf(cell, found));
  }
  return { byCell, outcomes, response, notes };
}

/** The cells that were fitted after a cast, and what their histories tell. */
interface Fitted {
  readonly byCell: CellPriors;
  /** Notes for a reader of the verdicts. */
  readonly notes: readonly string[];
}

/**
 * A spare with a history begins as it was last seen.
 * @param events  of the maintenance record after the cast
 * @param start   of the cast, ISO 8601 UTC, for events without a time
 * @param history records of any cells and cruises
 */
export function priorsOfFitted(
  cruise: Cruise,
  cells: readonly CellName[],
  events: readonly MaintenanceEvent[],
  start: string | undefined,
  history: readonly CellRecord[] = [],
): Fitted {
  const byCell: Partial<Record<CellName, CellPrior>> = {};
  const notes: string[] = [];
  for (const event of events) {
    const { action, serial, time = start } = event;
    if (action !== "exchange") continue;
    for (const cell of cells.filter((one) => event.cell === undefined || event.cell === one)) {
      delete byCell[cell];
      if (serial === undefined || time === undefined) continue;
      const spare = cruise.instrument.spares?.find((one) => one.serial === serial);
      const calibrated = spare?.calibrated;
      const at = { serial, start: time, ...(calibrated === undefined ? {} : { calibrated }) };
      const found = priorFromHistory(history, at);
      if (found === undefined) continue;
      byCell[cell] = found.cellPrior;
      notes.push(noteOf(cell, found));
    }
  }
  return { byCell, notes };
}

/** Whether the record has more than a rinse of the cell before the first cast. */
function isCleanedBefore(cruise: Cruise, cells: readonly CellName[], cell: CellName): boolean {
  return timelineOf(recordOfCruise(cruise, cells, epoch)).entries.some(
    (entry) => entry.after < 0 && isOf(entry, cell) && cleansFilms(entry.event.action),
  );
}

function noteOf(cell: CellName, found: HistoryPrior): string {
  const { serial, cruise, days, cellPrior, calibratedSince } = found;
  const from = `history of ${cell} cell ${serial}, last seen on ${cruise} ${days.toFixed(0)} days before`;
  const { clean, probability, film } = cellPrior;
  if (clean === undefined) {
    const when = calibratedSince === "" ? "since" : `on ${calibratedSince}`;
    return `${from}: calibrated ${when}, so its clean gain is not carried over`;
  }
  const gain = `${clean.mean.toFixed(0)} \u00b1 ${clean.sd.toFixed(0)} ppm`;
  const same = `${from}: clean gain ${gain} if nothing was done to it in port, ${(100 * probability).toFixed(0)} % probable`;
  if (film === undefined) return same;
  return `${same}; the film of that time, ${film.mean.toFixed(0)} ppm, is still in it with ${(100 * film.probability).toFixed(0)} % probability`;
}
