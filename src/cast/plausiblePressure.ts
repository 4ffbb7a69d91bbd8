// Pressure without impossible values: fill values and single outliers.
import { median } from "../statistics/robustCentre.js";
import { isPlausible, plausibleLimits } from "./plausibleReading.js";

/** A suspect is this far from its neighbours, dbar, or this many times the usual step. */
const leap_dbar = 20;
const leapInSteps = 20;
/** Number of readings on either side that a suspect is compared with. */
const reach = 3;
/** Fewest readings for that comparison. */
const leastToJudge = 2 * reach + 1;
/** The usual step is taken from about this many pairs, evenly spaced. */
const stepSample = 5000;

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
  const impossible: number[] = [];
  const suspects: number[] = [];
  let last = Number.NaN;
  for (let i = 0; i < pressure.length; i++) {
    const p = pressure[i]!;
    if (isPlausiblePressure(p)) {
      if (Math.abs(p - last) > leap) suspects.push(i);
      last = p;
    } else if (!Number.isNaN(p)) impossible.push(i);
  }
  const possible = without(pressure, impossible);
  // Single readings far from those around them.
  const wild = suspects.flatMap((i) => outliersNear(possible, i, leap));
  return { pressure: without(possible, wild), outliers: impossible.length + new Set(wild).size };
}

function isPlausiblePressure(p: number): boolean {
  return isPlausible(p, plausibleLimits.pressure_dbar);
}

/** The column with NaN at these scans; the column itself if there are none. */
function without(column: Float64Array, scans: readonly number[]): Float64Array {
  if (scans.length === 0) return column;
  const rest = column.slice();
  for (const i of scans) rest[i] = Number.NaN;
  return rest;
}

/** Of a suspect and the readings just before it, those far from the median of their neighbours. */
function outliersNear(pressure: Float64Array, suspect: number, leap: number): readonly number[] {
  const wild: number[] = [];
  for (let i = Math.max(0, suspect - reach); i <= Math.min(pressure.length - 1, suspect); i++) {
    const from = Math.max(0, Math.min(i - reach, pressure.length - leastToJudge));
    const around = pressure.subarray(from, from + leastToJudge);
    if (around.length < leastToJudge) continue;
    if (Math.abs(pressure[i]! - median(around)) > leap) wild.push(i);
  }
  return wild;
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
