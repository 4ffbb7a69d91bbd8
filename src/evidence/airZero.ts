// Readings in air: the additive offset of a cell, not its gain. A narrowed cell reads zero in air, so the line
// says nothing of a film; a path that conducts besides the cell's bore, or the zero of its electronics, shows here.
//
// Water left in a cell conducts too: 0.1 um of sea water on the wall of a bore of 4 mm is 4 uS/cm (2 d/r of 40
// mS/cm). It only ever adds. So a reading is doubted by what was done to the cell, the more the further it is above
// zero, and what it shows above the lowest reading of the same cast is put down to water.
import type { Cast, CellName } from "../cast/cast.js";
import { intensityNames, type MaintenanceEvent } from "../cast/maintenance.js";
import { airScans } from "./airScans.js";
import type { LeftOut, LineOfEvidence, Observation } from "./evidence.js";
import { settledLevel } from "./settledLevel.js";

/** The zero of a cell's electronics and calibration is known to so much, uS/cm (judgement). */
const zero_uS_cm = 0.5;
/** A fall of less than this within the reading is none, uS/cm (judgement). */
const steady_uS_cm = 0.3;
/** A reading written down by hand has not been averaged: its noise, uS/cm (judgement). */
const writtenNoise_uS_cm = 0.5;
/** Scans in air that scatter by more than this are not those of a sound cell, uS/cm (judgement). */
const noisy_uS_cm = 5;
/**
 * What water may add in a cell known to be neither rinsed nor drained, one of them, both: what is usual, uS/cm, and
 * the share of what is read above zero, for a cell not drained may be kept full of rinse water (judgement).
 */
const water = [
  { usual_uS_cm: 3, share: 1 },
  { usual_uS_cm: 0.5, share: 1 },
  { usual_uS_cm: 0.15, share: 0.1 },
] as const;
/**
 * A cell is rinsed and drained by the same hands after every cast, so the water left in it is much the same, while
 * the error of an observation is independent of all others: as that of so many casts it is told for (judgement).
 */
const alikeCasts = 10;
/** More than this above zero is spoken of, uS/cm: 25 ppm at 40 mS/cm, half of the accuracy of 0.002. */
const worthTelling_uS_cm = 1;

/** The entries of the maintenance record around a cast, in order. */
export interface EntriesAround {
  /** Since the cast before: they tell whether the cell went into the water rinsed. */
  readonly before: readonly MaintenanceEvent[];
  /** Until the next cast. Readings in air are taken from these alone, so that each counts once. */
  readonly after: readonly MaintenanceEvent[];
}

/** One reading in air, uS/cm. */
interface AirReading {
  readonly what: string;
  readonly level: number;
  readonly noise: number;
  /** How many of rinsing and draining are known to have been done. */
  readonly done: 0 | 1 | 2;
}

/**
 * The additive offset of a cell on one cast: one observation a reading, in uS/cm and its square.
 * @param cast absent where only the record is at hand
 */
export function airZeroEvidence(
  castId: string,
  cell: CellName,
  cast: Cast | undefined,
  entries: EntriesAround,
): LineOfEvidence {
  const leftOut: LeftOut[] = [];
  const notes: string[] = [];
  const readings = [
    ...(cast === undefined
      ? []
      : scanned(cast, cell, rinsedIn(entries.before, cell), leftOut, notes)),
    ...written(entries.after, cell, leftOut),
  ];
  if (readings.length === 0 && leftOut.length === 0) notes.push("no reading in air");
  const lowest = Math.min(...readings.map(({ level }) => level));
  const observations = readings.map(({ level, noise, done }): Observation => {
    const { usual_uS_cm, share } = water[done];
    const doubt = Math.max(
      Math.sqrt(alikeCasts) * Math.max(usual_uS_cm, share * level),
      level - lowest,
    );
    return {
      line: "air-zero",
      cast: castId,
      terms: [],
      additive: { cell },
      value_ppm: level,
      variance_ppm2: zero_uS_cm ** 2 + noise ** 2 + doubt ** 2,
      pressure_dbar: 0,
    };
  });
  notes.push(...readings.flatMap((reading) => inWords(reading, lowest)));
  return { line: "air-zero", cast: castId, cell, observations, leftOut, notes };
}

function scanned(
  cast: Cast,
  cell: CellName,
  rinsedBefore: boolean,
  leftOut: LeftOut[],
  notes: string[],
): readonly AirReading[] {
  const columns = cast.columns[cell];
  if (columns === undefined || cast.conductivityFrom === "salinity") return [];
  const scans = airScans(cast.columns);
  const { time_s } = cast.columns;
  const rate = cast.sampleRate_Hz ?? usualRate_Hz;
  return (["before", "after"] as const).flatMap((when) => {
    const own = scans[when];
    if (own.length === 0) return [];
    const what = `${own.length} scans in air ${when} the cast`;
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
    if (!settled) {
      leftOut.push({
        what,
        why:
          fall > 0
            ? `still draining: it fell by ${uS(fall)} within the last ${seconds.toFixed(0)} s; read again when it stands`
            : `it rose by ${uS(-fall)} within the last ${seconds.toFixed(0)} s: spray or rain; read again under cover`,
      });
      return [];
    }
    if (noise > noisy_uS_cm) {
      notes.push(
        `${what} scatter by ${uS(noise)}: water that moves in the cell, or a bad connector`,
      );
    }
    const done = when === "before" && rinsedBefore ? 1 : 0;
    return [{ what, level, noise: Math.hypot(standardError, fall), done }];
  });
}

/** Taken where neither times nor a rate are known, so that a reading of ten values is not called too short, Hz. */
const usualRate_Hz = 1;

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
    const done = ((rinsed ? 1 : 0) + (event.drained === true ? 1 : 0)) as 0 | 1 | 2;
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

/** What a reading that is not zero means, and what to do about it. */
function inWords({ what, level, done }: AirReading, lowest: number): readonly string[] {
  if (level < -worthTelling_uS_cm) {
    return [
      `${what}: ${uS(level)}, below zero, which no water does: the zero of the cell's electronics or calibration is off`,
    ];
  }
  if (level <= worthTelling_uS_cm) return [];
  if (level - lowest > worthTelling_uS_cm) {
    return [
      `${what}: ${uS(level)}, ${uS(level - lowest)} more than the lowest of this cast: water or residue left in the cell; rinse it, drain it, blow it out gently and read again`,
    ];
  }
  return [
    done === 2
      ? `${what}: ${uS(level)} in a cell rinsed and drained: a path that conducts besides the water in the cell, or its zero is off`
      : `${what}: ${uS(level)}, an offset or water left in the cell, which only a rinsed and drained cell can tell: rinse it, drain it, blow it out gently and read again`,
  ];
}

function uS(value: number): string {
  return `${value.toFixed(1)} uS/cm`;
}
