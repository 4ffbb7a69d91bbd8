// Pressure without impossible values: fill values, and wild readings alone or in bursts. The package cannot leap, so readings
// are connected in runs.
import { median } from "../statistics/robustCentre.js";
import { isPlausible, plausibleLimits } from "./plausibleReading.js";

/** The package moves less than this from one reading to the next, dbar, or than this many times the usual step (judgement). */
const leap_dbar = 20;
const leapInSteps = 20;
/** A shorter run is wild, or stands between wild readings in a burst (judgement). */
const leastConnected = 5;
/** The usual step is taken from about this many pairs, evenly spaced. */
const stepSample = 5000;

/** Readings without a leap between them. Missing and impossible ones may lie among them. */
interface Run {
  readonly first: number;
  last: number;
  readings: number;
}

/**
 * The column with NaN where the reading is missing or impossible.
 * @param pressure dbar
 * @returns the column itself if all of it is possible, else a copy; and the number of readings replaced by NaN in the copy
 */
export function plausiblePressure(pressure: Float64Array): {
  readonly pressure: Float64Array;
  readonly outliers: number;
} {
  const leap = Math.max(leap_dbar, leapInSteps * usualStep(pressure));
  const kept = connected(pressure, runsOf(pressure, leap), leap);
  let outliers = -readingsIn(kept);
  for (let i = 0; i < pressure.length; i++) if (!Number.isNaN(pressure[i]!)) outliers++;
  if (outliers === 0) return { pressure, outliers };
  const rest = new Float64Array(pressure.length).fill(Number.NaN);
  for (const { first, last } of kept) {
    for (let i = first; i <= last; i++)
      if (isPlausiblePressure(pressure[i]!)) rest[i] = pressure[i]!;
  }
  return { pressure: rest, outliers };
}

function readingsIn(runs: readonly Run[]): number {
  return runs.reduce((sum, { readings }) => sum + readings, 0);
}

function runsOf(pressure: Float64Array, leap: number): readonly Run[] {
  const runs: Run[] = [];
  let run: Run | undefined;
  for (let i = 0; i < pressure.length; i++) {
    if (!isPlausiblePressure(pressure[i]!)) continue;
    if (run === undefined || Math.abs(pressure[i]! - pressure[run.last]!) > leap) {
      run = { first: i, last: i, readings: 0 };
      runs.push(run);
    }
    run.last = i;
    run.readings++;
  }
  return runs;
}

/** The long runs, and the short ones that continue the one before them or lead to the one after them. */
function connected(pressure: Float64Array, runs: readonly Run[], leap: number): readonly Run[] {
  const long = runs.filter(({ readings }) => readings >= leastConnected);
  // A column of mostly short runs is no record of a moving package. Nothing tells which of its readings are wild.
  if (2 * readingsIn(long) <= readingsIn(runs)) return runs;
  const kept = new Set(long);
  const ends = [
    [runs, "last", "first"],
    [runs.toReversed(), "first", "last"],
  ] as const;
  for (const [inOrder, end, start] of ends) {
    let beside: Run | undefined;
    for (const run of inOrder) {
      if (beside && Math.abs(pressure[beside[end]]! - pressure[run[start]]!) <= leap) kept.add(run);
      if (kept.has(run)) beside = run;
    }
  }
  return [...kept];
}

function isPlausiblePressure(p: number): boolean {
  return isPlausible(p, plausibleLimits.pressure_dbar);
}

/** Median size of the step from one scan to the next, dbar. */
function usualStep(pressure: Float64Array): number {
  const stride = Math.max(1, Math.floor(pressure.length / stepSample));
  const steps: number[] = [];
  for (let i = 1; i < pressure.length; i += stride) {
    if (isPlausiblePressure(pressure[i]!) && isPlausiblePressure(pressure[i - 1]!))
      steps.push(Math.abs(pressure[i]! - pressure[i - 1]!));
  }
  return median(steps) || 0;
}
