// A cast in its parts: the usable scans of the lowering and of the hoisting, and what lies around them.
// Works on full-rate scans under heave and on one value a dbar alike: nothing here needs a speed a scan.

import { believablePressure } from "./believablePressure.js";
import { bottleStops, type StopRule, stopRule } from "./bottleStops.js";
import type { Cast, CastColumns, CellColumns } from "./cast.js";
import { code, gatherParts, type Parts } from "./legParts.js";
import { pressureNoise } from "./pressureNoise.js";
import { type ScanClock, scanClock } from "./scanClock.js";
import { startOfLowering } from "./soak.js";
import { inAirTest } from "./wetScans.js";

export interface Legs extends Parts {
  /** Seconds and usual rate of lowering that were used. */
  readonly clock: ScanClock;
  readonly notes: readonly string[];
}

/** Bubbles and the ship's own mixing reach about this deep, dbar (common practice, no source). */
const surface_dbar = 5;
const surfaceShare = 0.2;
/** Within this of the deepest scan the package is at the turn, dbar; a stop within the second is one too. */
const bottom_dbar = 1;
const bottomShare = 0.02;
const bottomStop_dbar = 5;
const bottomStopShare = 0.1;
/** No more scans than this at the turn are a turn without a hold, and stay on their legs. */
const scansOfTurn = 3;
/** Less than this between shallowest and deepest is no lowering, dbar. */
const leastRange_dbar = 2;

/** Split a cast into its legs; every scan is in exactly one part. Time and memory grow with the scans. */
export function splitLegs(cast: Cast): Legs {
  const { columns } = cast;
  const { pressure, wild } = believablePressure(columns.pressure_dbar);
  const part = new Uint8Array(pressure.length);
  const wet = markDryAndMissing(columns, pressure, part);
  const inWater = pick(pressure, wet);
  const clock = scanClock(inWater, wet, cast);
  const notes = clockNotes(cast, clock);
  if (wild > 0) notes.push(`${wild} scans have a pressure that cannot be true`);

  const water = { pressure: inWater, seconds: pick(clock.seconds, wet) };
  const { turn, range } = spanOf(water.pressure);
  const lowered = range >= leastRange_dbar;
  if (wet.length === 0) {
    notes.push("no scan has a pressure, a temperature and a conductivity: no legs");
  } else if (!lowered) {
    for (let k = 0; k < wet.length; k++) part[wet[k]!] = code.soak;
    notes.push(`pressure spans ${range.toFixed(1)} dbar only: no legs`);
  } else {
    const marks = markLegs(water, turn, range, clock.rate_dbar_s);
    for (let k = 0; k < wet.length; k++) part[wet[k]!] = marks[k]!;
  }
  const legs = gatherParts(part);
  if (lowered) {
    for (const leg of ["down", "up"] as const) {
      if (legs[leg].length === 0) notes.push(`no usable scan on the way ${leg}`);
    }
  }
  return { ...legs, clock, notes };
}

/** The scans in the water, in order of time, one value a scan. */
interface Water {
  /** dbar. */
  readonly pressure: Float64Array;
  readonly seconds: Float64Array;
}

/** The part of each scan in the water. */
function markLegs(water: Water, turn: number, range: number, rate_dbar_s: number): Uint8Array {
  const { pressure, seconds } = water;
  const part = new Uint8Array(pressure.length);
  const rule = stopRule(range, rate_dbar_s);
  const deepest = pressure[turn]!;

  const start = startOfLowering(pressure.subarray(0, turn + 1), seconds, range, rule);
  part.fill(code.soak, 0, start);

  // At the turn: between the first and the last scan close to the deepest.
  const close = deepest - Math.min(bottom_dbar, bottomShare * range);
  const nearBottom = deepest - Math.min(bottomStop_dbar, bottomStopShare * range);
  let first = start;
  while (pressure[first]! < close) first++;
  let last = pressure.length - 1;
  while (pressure[last]! < close) last--;
  if (last - first < scansOfTurn) {
    // A column that only falls, or only rises, has its turn at an end: all of it is one leg.
    first = turn === start && turn < pressure.length - 1 ? turn : turn + 1;
    last = first - 1;
  }
  for (let k = first; k <= last; k++) {
    part[k] = pressure[k]! >= nearBottom ? code.bottom : code.reversals;
  }
  const surface = Math.min(surface_dbar, surfaceShare * deepest);
  const marks = { rule, tolerance: pressureNoise(pressure), nearBottom, surface };
  const leg = (from: number, to?: number) => ({
    part: part.subarray(from, to),
    pressure: pressure.subarray(from, to),
    seconds: seconds.subarray(from, to),
  });
  markLeg({ ...leg(start, first), ...marks, direction: 1 });
  markLeg({ ...leg(last + 1), ...marks, direction: -1 });
  return part;
}

interface LegToMark extends Water {
  readonly part: Uint8Array;
  readonly rule: StopRule;
  /** What noise alone makes a scan fall behind the furthest, dbar. */
  readonly tolerance: number;
  readonly nearBottom: number;
  readonly surface: number;
  readonly direction: 1 | -1;
}

function markLeg(leg: LegToMark): void {
  const { part, pressure, seconds, rule, tolerance, nearBottom, surface, direction } = leg;
  const own = direction === 1 ? code.down : code.up;
  let furthest = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < part.length; k++) {
    const along = direction * pressure[k]!;
    if (along > furthest) furthest = along;
    part[k] = along < furthest - tolerance ? code.reversals : own;
  }
  for (const { from, to, reached_dbar } of bottleStops(pressure, seconds, direction, rule)) {
    part.fill(reached_dbar > nearBottom ? code.bottom : code.bottleStops, from, to + 1);
  }
  for (let k = 0; k < part.length; k++) if (pressure[k]! < surface) part[k] = code.surface;
}

/** Mark scans without readings and scans in air; return the others. */
function markDryAndMissing(
  columns: CastColumns,
  pressure: Float64Array,
  part: Uint8Array,
): Uint32Array {
  const inAir = inAirTest(columns, pressure);
  const { primary, secondary } = columns;
  const wet = new Uint32Array(pressure.length);
  let count = 0;
  for (let i = 0; i < pressure.length; i++) {
    const read = hasReading(primary, i) || (secondary !== undefined && hasReading(secondary, i));
    if (Number.isNaN(pressure[i]!) || !read) part[i] = code.missing;
    else if (inAir(i)) part[i] = code.inAir;
    else wet[count++] = i;
  }
  const firstWet = count > 0 ? wet[0]! : pressure.length;
  const lastWet = count > 0 ? wet[count - 1]! : -1;
  for (let i = 0; i < pressure.length; i++) {
    if (part[i] === code.inAir && (i < firstWet || i > lastWet)) part[i] = code.onDeck;
  }
  return wet.subarray(0, count);
}

function hasReading({ temperature_C, conductivity_mS_cm }: CellColumns, scan: number): boolean {
  return Number.isFinite(temperature_C[scan]! + conductivity_mS_cm[scan]!);
}

/** The first of the deepest scans, and greatest less least pressure, dbar; NaN of nothing. */
function spanOf(pressure: Float64Array): { readonly turn: number; readonly range: number } {
  let turn = 0;
  let shallowest = pressure[0] ?? Number.NaN;
  for (let k = 1; k < pressure.length; k++) {
    if (pressure[k]! > pressure[turn]!) turn = k;
    if (pressure[k]! < shallowest) shallowest = pressure[k]!;
  }
  return { turn, range: (pressure[turn] ?? Number.NaN) - shallowest };
}

/** The column's values at these scans; a view of the column where they lie in one run, as they nearly always do. */
function pick(column: Float64Array, scans: Uint32Array): Float64Array {
  const first = scans[0] ?? 0;
  const last = scans.at(-1) ?? -1;
  if (last - first === scans.length - 1) return column.subarray(first, last + 1);
  const own = new Float64Array(scans.length);
  for (let k = 0; k < scans.length; k++) own[k] = column[scans[k]!]!;
  return own;
}

function clockNotes(cast: Cast, clock: ScanClock): string[] {
  if (clock.from === "time") return [];
  if (cast.columns.time_s !== undefined) {
    return ["the time column runs backwards or does not fit the pressure: it was not used"];
  }
  return [];
}
