// The readings of a cell in air around one cast: from its scans on deck and from the record.
import type { Cast, CellName } from "../../cast/cast.js";
import { intensityNames, type MaintenanceEvent, mostInAir_mS_cm } from "../../cast/maintenance.js";
import type { LeftOut } from "../../model/observation.js";
import { airScans } from "./airScans.js";
import { settledLevel } from "./settledLevel.js";

/** Falls within a reading that are smaller than this are ignored, uS/cm (judgement). */
const steady_uS_cm = 0.3;
/** Noise of a reading written down by hand, which is not an average, uS/cm (judgement). */
const writtenNoise_uS_cm = 0.5;
/** Scans in air with a larger scatter do not come from a sound cell, uS/cm (judgement). */
const noisy_uS_cm = 5;
/**
 * Assumed sampling rate if neither times nor a rate are known, so that a reading of ten values is not called too short, Hz.
 */
const usualRate_Hz = 1;

/** The entries of the maintenance record around a cast, in order. */
export interface EntriesAround {
  /** Since the cast before: they show whether the cell was rinsed before it went into the water. */
  readonly before: readonly MaintenanceEvent[];
  /** Until the next cast. Readings in air are taken only from these, so that each counts once. */
  readonly after: readonly MaintenanceEvent[];
}

/** One reading in air, uS/cm. */
export interface AirReading {
  /** Text for a person: "240 scans in air before the cast". */
  readonly what: string;
  readonly level: number;
  readonly noise: number;
  /** Known treatment of the cell; "drained" alone counts as neither, because a layer of sea water stays. */
  readonly done: "neither" | "rinsed" | "rinsed and drained";
}

/** The readings of one cell from the scans on deck, before it is known whether the cell was rinsed or drained: plain values. */
export interface DeckReadings {
  readonly readings: readonly (Omit<AirReading, "done"> & { readonly when: "before" | "after" })[];
  readonly leftOut: readonly LeftOut[];
  readonly notes: readonly string[];
}

interface AirReadings {
  readonly readings: readonly AirReading[];
  readonly leftOut: readonly LeftOut[];
  readonly notes: readonly string[];
}

/** @param deck as from `deckReadings`; absent if only the record is available */
export function airReadings(
  cell: CellName,
  deck: DeckReadings | undefined,
  { before, after }: EntriesAround,
): AirReadings {
  const leftOut = [...(deck?.leftOut ?? [])];
  const rinsedBefore = rinsedIn(before, cell);
  const fromDeck = (deck?.readings ?? []).map(({ when, ...reading }): AirReading => {
    return { ...reading, done: when === "before" && rinsedBefore ? "rinsed" : "neither" };
  });
  const readings = [...fromDeck, ...written(after, cell, leftOut)];
  return { readings, leftOut, notes: deck?.notes ?? [] };
}

export function deckReadings(cell: CellName, cast: Cast): DeckReadings {
  const leftOut: LeftOut[] = [];
  const notes: string[] = [];
  const columns = cast.columns[cell];
  if (columns === undefined || cast.conductivityFrom === "salinity")
    return { readings: [], leftOut, notes };
  const scans = airScans(cast.columns);
  const { time_s } = cast.columns;
  const rate = cast.sampleRate_Hz ?? usualRate_Hz;
  const readings = (["before", "after"] as const).flatMap((when) => {
    const own = scans[when];
    if (own.length === 0) return [];
    const what = `${own.length} ${own.length === 1 ? "scan" : "scans"} in air ${when} the cast`;
    const found = settledLevel(
      own.map((i) => 1000 * columns.conductivity_mS_cm[i]!),
      own.map((i) => time_s?.[i] ?? i / rate),
      steady_uS_cm,
    );
    if (found === undefined) {
      leftOut.push({ what, why: "too short: hold the package in air for half a minute" });
      return [];
    }
    const { level, fall, seconds, settled, standardError, noise } = found;
    if (Math.abs(level) > 1000 * mostInAir_mS_cm) {
      leftOut.push({ what, why: `it read ${uS(level)}: the cell held water, or is broken` });
      return [];
    }
    if (!settled) {
      leftOut.push({
        what,
        why:
          fall > 0
            ? `still draining: it fell by ${uS(fall)} within the last ${seconds.toFixed(0)} s. Read again when it no longer changes`
            : `it rose by ${uS(-fall)} within the last ${seconds.toFixed(0)} s: spray or rain. Read again under cover`,
      });
      return [];
    }
    if (noise > noisy_uS_cm) {
      notes.push(
        `${what} scatter by ${uS(noise)}: water that moves in the cell, or a bad connector`,
      );
    }
    return [{ what, level, noise: Math.hypot(standardError, fall), when }];
  });
  return { readings, leftOut, notes };
}

function written(
  entries: readonly MaintenanceEvent[],
  cell: CellName,
  leftOut: LeftOut[],
): readonly AirReading[] {
  return entries.flatMap((event, i) => {
    const { action, reading_mS_cm, line } = event;
    if (action !== "air-reading" || (event.cell !== undefined && event.cell !== cell)) return [];
    const what = `reading in air${line === undefined ? "" : `, line ${line} of the record`}`;
    if (event.cell === undefined || reading_mS_cm === undefined) {
      const lacking = event.cell === undefined ? "which cell it is of" : "what the cell read";
      leftOut.push({ what, why: `it does not say ${lacking}` });
      return [];
    }
    const rinsed = event.rinsed ?? rinsedIn(entries.slice(0, i), cell);
    const done = !rinsed ? "neither" : event.drained === true ? "rinsed and drained" : "rinsed";
    return [{ what, level: 1000 * reading_mS_cm, noise: writtenNoise_uS_cm, done }];
  });
}

/** Every cleaning ends with a rinse, unless the record says that it did not. */
function rinsedIn(entries: readonly MaintenanceEvent[], cell: CellName): boolean {
  return entries.some(
    ({ action, cell: of, rinsed }) =>
      (of === undefined || of === cell) &&
      (rinsed ?? (intensityNames as readonly string[]).includes(action)),
  );
}

/** Text for a person. */
export function uS(value: number): string {
  return `${value.toFixed(1)} uS/cm`;
}
