// Whether the difference between the legs begins at a pressure, and which: a film that came at p0 makes the up
// leg differ from the down leg above p0 and leaves both alike below, whichever leg it came on. The step and the
// thermal lag are weighed together, for in a thermocline either can look like the other.
import type { LegSeries } from "./legSeries.js";
import { legWeights, neighbours } from "./legWeights.js";

export interface LegStep {
  /** Up minus down above the step less below, ppm. */
  readonly ppm: number;
  /** Probability, given the step, that it lies just above each value of the series; sums to one. */
  readonly probability: Float64Array;
  /** The most probable such value. */
  readonly at: number;
}

/** Before the cast is looked at: steps are of this size, ppm (0.012 in salinity at 35); lag, in units of the usual. */
const priorStep_ppm = 300;
const priorLag = 2;
/**
 * A step is real where it explains the cast this many times better than lag alone [KassRaftery1995]: were the
 * scatter known, one sound cast in 1000 would show one; it is learnt from the cast, and one in 100 does. And this many times better than a difference that is the same all
 * the way, or changes evenly with pressure, as between two waters.
 */
const againstNothing = 1000;
const againstOthers = 5;
/**
 * Cell, thermometer and pressure gauge together do not repeat better than a few ppm from leg to leg, and in calm
 * deep water that shows: smaller steps than this, ppm (0.0006 in salinity at 35), are not claimed (our judgement).
 */
const leastStep_ppm = 15;
/** Weighted sums over values. */
type Sums = readonly number[];

/** @returns undefined where no step is real */
export function legsOnset(series: LegSeries, lagAmplitude: number): LegStep | undefined {
  const { difference_ppm, lag_ppm, pressure_dbar } = series;
  const n = difference_ppm.length;
  if (n < 4 * neighbours) return undefined;
  const weights = legWeights(series, lagAmplitude);
  const first = pressure_dbar[0]!;
  const span = pressure_dbar[n - 1]! - first;
  const columns = (k: number): Sums => [
    1,
    (2 * (pressure_dbar[k]! - first)) / span - 1,
    lag_ppm[k]!,
  ];
  const whole = normalEquations(n, weights, difference_ppm, columns);

  const lagPrecision = priorLag ** -2;
  const stepPrecision = priorStep_ppm ** -2;
  const lagOnly = evidence([[whole.matrix[2]![2]!]], [whole.right[2]!], [lagPrecision]);
  const logs = new Float64Array(n).fill(Number.NEGATIVE_INFINITY);
  const sizes = new Float64Array(n);
  let information = 0;
  let withLag = 0;
  let right = 0;
  for (let k = 0; k < n; k++) {
    if (k > 0) {
      const fit = evidence(
        [
          [information, withLag],
          [withLag, whole.matrix[2]![2]!],
        ],
        [right, whole.right[2]!],
        [stepPrecision, lagPrecision],
      );
      logs[k] = fit.log - lagOnly.log;
      sizes[k] = fit.first;
    }
    information += weights[k]!;
    withLag += weights[k]! * lag_ppm[k]!;
    right += weights[k]! * difference_ppm[k]!;
  }
  const most = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const ratios = logs.map((l) => Math.exp(l - most));
  const total = ratios.reduce((sum, r) => sum + r, 0);
  const step = most + Math.log(total / (n - 1));

  const pick = (...own: number[]) =>
    evidence(
      own.map((a) => own.map((b) => whole.matrix[a]![b]!)),
      own.map((a) => whole.right[a]!),
      own.map((a) => (a === 2 ? lagPrecision : stepPrecision)),
    ).log - lagOnly.log;
  const others = Math.max(pick(0, 2), pick(0, 1, 2));
  if (!(step > Math.log(againstNothing) && step > others + Math.log(againstOthers))) {
    return undefined;
  }
  const at = logs.indexOf(most);
  if (Math.abs(sizes[at]!) < leastStep_ppm) return undefined;
  return { ppm: sizes[at]!, probability: ratios.map((r) => r / total), at };
}

function normalEquations(
  n: number,
  weights: Float64Array,
  y: Float64Array,
  columns: (k: number) => Sums,
) {
  const matrix = [0, 1, 2].map(() => [0, 0, 0]);
  const right = [0, 0, 0];
  for (let k = 0; k < n; k++) {
    const row = columns(k);
    for (let a = 0; a < 3; a++) {
      right[a]! += weights[k]! * row[a]! * y[k]!;
      for (let b = 0; b < 3; b++) matrix[a]![b]! += weights[k]! * row[a]! * row[b]!;
    }
  }
  return { matrix, right };
}

/**
 * Log of the evidence for a linear model of normal priors about 0 against one of no terms, by Gaussian
 * elimination of its normal equations, and the fitted value of its first term.
 */
function evidence(matrix: readonly Sums[], right: Sums, precisions: Sums) {
  const m = matrix.map((row, a) =>
    row.map((value, b) => (a === b ? value + precisions[a]! : value)),
  );
  const v = [...right];
  let log = precisions.reduce((sum, p) => sum + 0.5 * Math.log(p), 0);
  // From the last term to the first, so that the first is solved by what is left.
  for (let a = m.length - 1; a >= 0; a--) {
    const pivot = m[a]![a]!;
    log += 0.5 * (v[a]! ** 2 / pivot - Math.log(pivot));
    for (let b = 0; b < a; b++) {
      const factor = m[b]![a]! / pivot;
      for (let c = 0; c <= a; c++) m[b]![c]! -= factor * m[a]![c]!;
      v[b]! -= factor * v[a]!;
    }
  }
  return { log, first: v[0]! / m[0]![0]! };
}
