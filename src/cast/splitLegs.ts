// Split a cast into the usable scans of the down leg and of the up leg, and the rest. It works on full-rate scans under
// heave and on averages, because it does not need the speed of single scans.

import { bottleStops, type StopRule, stopRule } from "./bottleStops.js";
import type { Cast, CastColumns } from "./cast.js";
import { type CastParts, code, gatherParts } from "./legParts.js";
import { isOneRun, pick } from "./pickScans.js";
import { plausiblePressure } from "./plausiblePressure.js";
import { pressureNoise } from "./pressureNoise.js";
import { pressureSpan } from "./pressureSpan.js";
import { type ScanClock, scanClock } from "./scanClock.js";
import { pumpRuns, startOfLowering } from "./soak.js";
import { airEnds_dbar, inAirTest } from "./wetScans.js";

export interface Legs extends CastParts {
  /** The seconds and the usual rate of lowering that were used. */
  readonly clock: ScanClock;
  /** Whether the package was held near the surface before it was lowered. */
  readonly soaked: boolean;
  readonly notes: readonly string[];
}

/** Bubbles and the mixing by the ship reach about this deep, dbar (common practice, no source). */
const surface_dbar = 5;
const surfaceShare = 0.2;
/**
 * Within this of the deepest scan the package is at the turn, dbar; a stop within the second limit belongs to the turn too.
 */
const bottom_dbar = 1;
const bottomShare = 0.02;
const bottomStop_dbar = 5;
const bottomStopShare = 0.1;
/** At most this many scans at the turn are a turn without a hold, and stay on their legs. */
const scansOfTurn = 3;
/** A smaller range of pressure is no lowering, dbar. */
const leastRange_dbar = 2;

/** Split a cast into its legs; every scan is in exactly one part. Time and memory grow with the scans. */
export function splitLegs(cast: Cast): Legs {
  const { columns } = cast;
  const { pressure, outliers } = plausiblePressure(columns.pressure_dbar);
  const part = new Uint8Array(pressure.length);
  const wet = markDryAndMissing(columns, pressure, part);
  const inWater = pick(pressure, wet);
  const span = pressureSpan(inWater);
  const clock = scanClock(inWater, span, wet, cast);
  const notes = clockNotes(cast, clock);
  if (outliers > 0) notes.push(`${outliers} scans have an impossible pressure`);

  const water = { pressure: inWater, seconds: pick(clock.seconds, wet) };
  const range = span.deepest - span.shallowest;
  const lowered = range >= leastRange_dbar;
  let soaked = false;
  if (wet.length === 0) {
    notes.push("no scan has a pressure, a temperature and a conductivity: no legs");
  } else if (!lowered) {
    for (let k = 0; k < wet.length; k++) part[wet[k]!] = code.soak;
    notes.push(`pressure spans ${range.toFixed(1)} dbar only: no legs`);
  } else {
    // The first scan is that of the entry into the water, and the times are known.
    const entry = wet[0]! > 0 && part[wet[0]! - 1] === code.onDeck && clock.from !== "pressure";
    const rule = stopRule(range, clock.rate_dbar_s);
    const lowering = startOfLowering(
      inWater.subarray(0, span.turn + 1),
      water.seconds,
      range,
      rule,
    );
    soaked = lowering > 0;
    const start = entry ? Math.max(lowering, pumpRuns(water.seconds, span.turn)) : lowering;
    const marks = markLegs(water, { start, turn: span.turn }, range, rule);
    if (isOneRun(wet)) part.set(marks, wet[0]!);
    else for (let k = 0; k < wet.length; k++) part[wet[k]!] = marks[k]!;
  }
  const legs = gatherParts(part);
  if (lowered) {
    for (const leg of ["down", "up"] as const) {
      if (legs[leg].length === 0) notes.push(`no usable scan on the way ${leg}`);
    }
  }
  return { ...legs, clock, soaked, notes };
}

/** The scans in the water, in order of time, one value for each scan. */
interface ScansInWater {
  /** Unit: dbar. */
  readonly pressure: Float64Array;
  readonly seconds: Float64Array;
}

/**
 * The part of each scan in the water.
 * @param start position of the first scan of the down leg
 * @param turn  position of the deepest scan
 */
function markLegs(
  water: ScansInWater,
  { start, turn }: { readonly start: number; readonly turn: number },
  range: number,
  rule: StopRule,
): Uint8Array {
  const { pressure, seconds } = water;
  const part = new Uint8Array(pressure.length);
  const deepest = pressure[turn]!;
  part.fill(code.soak, 0, start);

  // At the turn: between the first and the last scan close to the deepest.
  const close = deepest - Math.min(bottom_dbar, bottomShare * range);
  const nearBottom = deepest - Math.min(bottomStop_dbar, bottomStopShare * range);
  let first = start;
  while (pressure[first]! < close) first++;
  let last = pressure.length - 1;
  while (pressure[last]! < close) last--;
  if (last - first < scansOfTurn) {
    // A column that only falls, or only rises, has its turn at an end, so all of it is one leg.
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

interface LegToMark extends ScansInWater {
  readonly part: Uint8Array;
  readonly rule: StopRule;
  /** The distance behind the furthest point that noise alone can cause, dbar. */
  readonly tolerance: number;
  readonly nearBottom: number;
  readonly surface: number;
  readonly direction: 1 | -1;
}

function markLeg(leg: LegToMark): void {
  const { part, pressure, seconds, rule, tolerance, nearBottom, surface, direction } = leg;
  const own = direction === 1 ? code.down : code.up;
  const { reversals } = code;
  let furthest = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < part.length; k++) {
    const p = pressure[k]!;
    const along = direction * p;
    if (along > furthest) furthest = along;
    part[k] = p < surface ? code.surface : along < furthest - tolerance ? reversals : own;
  }
  for (const { from, to, reached_dbar } of bottleStops(pressure, seconds, direction, rule)) {
    const stop = reached_dbar > nearBottom ? code.bottom : code.bottleStops;
    for (let k = from; k <= to; k++) if (pressure[k]! >= surface) part[k] = stop;
  }
}

/** Mark scans without readings and scans in air; return the others. */
function markDryAndMissing(
  columns: CastColumns,
  pressure: Float64Array,
  part: Uint8Array,
): Uint32Array {
  const isInAir = inAirTest(columns, pressure);
  const { missing, inAir, onDeck } = code;
  const { primary, secondary = primary } = columns;
  const [t1, c1] = [primary.temperature_C, primary.conductivity_mS_cm];
  const [t2, c2] = [secondary.temperature_C, secondary.conductivity_mS_cm];
  const wet = new Uint32Array(pressure.length);
  let count = 0;
  for (let i = 0; i < pressure.length; i++) {
    const read = Number.isFinite(t1[i]! + c1[i]!) || Number.isFinite(t2[i]! + c2[i]!);
    // In air the conductivity is enough: air may be colder than any water, and then its temperature counts as missing.
    if (pressure[i]! < airEnds_dbar && isInAir(i)) part[i] = inAir;
    else if (Number.isNaN(pressure[i]!) || !read) part[i] = missing;
    else wet[count++] = i;
  }
  const firstWet = count > 0 ? wet[0]! : pressure.length;
  const lastWet = count > 0 ? wet[count - 1]! : pressure.length;
  for (const dry of [part.subarray(0, firstWet), part.subarray(lastWet + 1)]) {
    for (let i = 0; i < dry.length; i++) if (dry[i] === inAir) dry[i] = onDeck;
  }
  return wet.subarray(0, count);
}

function clockNotes(cast: Cast, clock: ScanClock): string[] {
  if (clock.from === "time") return [];
  if (cast.columns.time_s !== undefined) {
    return ["the time column runs backwards or does not fit the pressure: it was not used"];
  }
  return [];
}
