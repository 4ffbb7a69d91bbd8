// A cast in its parts: the usable scans of the lowering and of the hoisting, and what lies around them.
// Works on full-rate scans under heave and on one value a dbar alike: nothing here needs a speed a scan.

import { believablePressure } from "./believablePressure.js";
import { bottleStops, furthestReached, type StopRule, stopRule } from "./bottleStops.js";
import type { Cast, CastColumns } from "./cast.js";
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
  const clock = scanClock(maskedBy(pressure, part), columns.time_s, cast.sampleRate_Hz);
  const notes = clockNotes(cast, clock);
  if (wild > 0) notes.push(`${wild} scans have a pressure that cannot be true`);

  const turn = deepestOf(pressure, wet);
  const shallowest = wet.reduce(
    (least, i) => Math.min(least, pressure[i]!),
    Number.POSITIVE_INFINITY,
  );
  const range = turn === undefined ? 0 : pressure[turn]! - shallowest;
  if (turn === undefined) {
    notes.push("no scan has a pressure, a temperature and a conductivity: no legs");
  } else if (!(range >= leastRange_dbar)) {
    for (const i of wet) part[i] = code.soak;
    notes.push(`pressure spans ${range.toFixed(1)} dbar only: no legs`);
  } else {
    markLegs(part, { pressure, wet, turn, range, clock });
  }
  const legs = gatherParts(part);
  if (turn !== undefined && range >= leastRange_dbar) {
    for (const leg of ["down", "up"] as const) {
      if (legs[leg].length === 0) notes.push(`no usable scan on the way ${leg}`);
    }
  }
  return { ...legs, clock, notes };
}

interface Water {
  readonly pressure: Float64Array;
  /** Scans in the water, in order of time. */
  readonly wet: Uint32Array;
  readonly turn: number;
  readonly range: number;
  readonly clock: ScanClock;
}

function markLegs(part: Uint8Array, { pressure, wet, turn, range, clock }: Water): void {
  const rule = stopRule(range, clock.rate_dbar_s);
  const deepest = pressure[turn]!;
  const tolerance = pressureNoise(pressure);
  const turnPosition = wet.indexOf(turn);

  const before = wet.subarray(0, turnPosition + 1);
  const start = startOfLowering(pressure, before, secondsOf(clock, before), range, rule);
  for (const i of wet.subarray(0, start)) part[i] = code.soak;

  // At the turn: between the first and the last scan close to the deepest.
  const close = deepest - Math.min(bottom_dbar, bottomShare * range);
  const atTurn = (i: number) => pressure[i]! >= close;
  let first = wet.findIndex((i, k) => k >= start && atTurn(i));
  let last = wet.findLastIndex(atTurn);
  const nearBottom = deepest - Math.min(bottomStop_dbar, bottomStopShare * range);
  if (last - first < scansOfTurn) {
    // A column that only falls, or only rises, has its turn at an end: all of it is one leg.
    first =
      turnPosition === start && turnPosition < wet.length - 1 ? turnPosition : turnPosition + 1;
    last = first - 1;
  }
  for (const i of wet.subarray(first, last + 1)) {
    part[i] = pressure[i]! >= nearBottom ? code.bottom : code.reversals;
  }
  const surface = Math.min(surface_dbar, surfaceShare * deepest);
  const marks = { part, pressure, clock, rule, tolerance, nearBottom, surface };
  markLeg({ ...marks, scans: wet.subarray(start, first), direction: 1 });
  markLeg({ ...marks, scans: wet.subarray(last + 1), direction: -1 });
}

interface LegToMark {
  readonly part: Uint8Array;
  readonly pressure: Float64Array;
  readonly clock: ScanClock;
  readonly rule: StopRule;
  /** What noise alone makes a scan fall behind the furthest, dbar. */
  readonly tolerance: number;
  readonly nearBottom: number;
  readonly surface: number;
  readonly scans: Uint32Array;
  readonly direction: 1 | -1;
}

function markLeg(leg: LegToMark): void {
  const { part, pressure, clock, rule, tolerance, nearBottom, surface, scans, direction } = leg;
  const own = direction === 1 ? code.down : code.up;
  const reached = furthestReached(pressure, scans, direction);
  for (let k = 0; k < scans.length; k++) {
    const i = scans[k]!;
    part[i] = direction * pressure[i]! < reached[k]! - tolerance ? code.reversals : own;
  }
  for (const [from, to] of bottleStops(reached, secondsOf(clock, scans), rule)) {
    const stop = direction * reached[from]! > nearBottom ? code.bottom : code.bottleStops;
    for (const i of scans.subarray(from, to + 1)) part[i] = stop;
  }
  for (const i of scans) if (pressure[i]! < surface) part[i] = code.surface;
}

/** Mark scans without readings and scans in air; return the others. */
function markDryAndMissing(
  columns: CastColumns,
  pressure: Float64Array,
  part: Uint8Array,
): Uint32Array {
  const inAir = inAirTest(columns, pressure);
  const cells = [columns.primary, columns.secondary].filter((cell) => cell !== undefined);
  const read = (i: number) =>
    cells.some((cell) => Number.isFinite(cell.temperature_C[i]! + cell.conductivity_mS_cm[i]!));
  const wet = new Uint32Array(pressure.length);
  let count = 0;
  for (let i = 0; i < pressure.length; i++) {
    if (Number.isNaN(pressure[i]!) || !read(i)) part[i] = code.missing;
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

function maskedBy(pressure: Float64Array, part: Uint8Array): Float64Array {
  return pressure.map((p, i) => (part[i] === 0 ? p : Number.NaN));
}

function deepestOf(pressure: Float64Array, wet: Uint32Array): number | undefined {
  let deepest: number | undefined;
  for (const i of wet) if (deepest === undefined || pressure[i]! > pressure[deepest]!) deepest = i;
  return deepest;
}

function secondsOf({ seconds }: ScanClock, scans: Uint32Array): Float64Array {
  const own = new Float64Array(scans.length);
  for (let k = 0; k < scans.length; k++) own[k] = seconds[scans[k]!]!;
  return own;
}

function clockNotes(cast: Cast, clock: ScanClock): string[] {
  if (clock.from === "time") return [];
  if (cast.columns.time_s !== undefined) {
    return ["the time column runs backwards or does not fit the pressure: it was not used"];
  }
  return [];
}
