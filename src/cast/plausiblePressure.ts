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
  readonly from: number;
  /** The scan after the last one. */
  to: number;
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
  for (const { from, to } of kept) {
    for (let i = from; i < to; i++) if (isPlausiblePressure(pressure[i]!)) rest[i] = pressure[i]!;
  }
  return { pressure: rest, outliers };
}

function readingsIn(runs: readonly Run[]): number {
  return runs.reduce((sum, { readings }) => sum + readings, 0);
}

function runsOf(pressure: Float64Array, leap: number): readonly Run[] {
  const runs: Run[] = [];
  let run: Run | undefined;
  let last = Number.NaN;
  for (let i = 0; i < pressure.length; i++) {
    const p = pressure[i]!;
    if (!isPlausiblePressure(p)) continue;
    if (run === undefined || Math.abs(p - last) > leap) {
      run = { from: i, to: i, readings: 0 };
      runs.push(run);
    }
    run.to = i + 1;
    run.readings++;
    last = p;
  }
  return runs;
}

/** The long runs, and the short ones that continue the long run before them or lead to the one after them. */
function connected(pressure: Float64Array, runs: readonly Run[], leap: number): readonly Run[] {
  const isLong = ({ readings }: Run) => readings >= leastConnected;
  // A column of mostly short runs is no record of a moving package. Nothing tells which of its readings are wild.
  if (2 * readingsIn(runs.filter(isLong)) <= readingsIn(runs)) return runs;
  const isNear = (one: number, other: number) =>
    Math.abs(pressure[one]! - pressure[other]!) <= leap;
  const kept = new Set<Run>(runs.filter(isLong));
  const extend = (inOrder: readonly Run[], near: (to: Run, run: Run) => boolean) => {
    let anchor: Run | undefined;
    for (const run of inOrder) {
      if (anchor !== undefined && near(anchor, run)) kept.add(run);
      if (kept.has(run)) anchor = run;
    }
  };
  extend(runs, (before, run) => isNear(before.to - 1, run.from));
  extend(runs.toReversed(), (after, run) => isNear(after.from, run.to - 1));
  return runs.filter((run) => kept.has(run));
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
  const step = median(steps);
  return Number.isNaN(step) ? 0 : step;
}
