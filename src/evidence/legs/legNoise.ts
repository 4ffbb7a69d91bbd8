// The noise of the differences between the legs in thin layers, as an AR(2) process about their level:
// x[k] = kept[k] ((1 - turned[k]) x[k-1] + turned[k] x[k-2]) + e[k],   x scaled by `scatter`, sd of e: `innovation`.

import {
  leastScatter_ppm,
  waterScatter,
  winsorisedScale,
} from "../../response/match/waterScatter.js";
import { median } from "../../statistics/robustCentre.js";

/** One value for each thin layer in every column. */
export interface LegNoise {
  /** Standard deviation about the level, ppm. */
  readonly scatter: Float64Array;
  readonly kept: Float64Array;
  /** Between -1 and 0: negative if a jump is usually followed by one in the same direction. */
  readonly turned: Float64Array;
  /** Standard deviation of the innovation e, ppm. */
  readonly innovation: Float64Array;
  /** Standard deviation of a jump from the value before, given the jump before, ppm. */
  readonly jump: Float64Array;
  /** 1 if the value is a spike. */
  readonly spike: Uint8Array;
}

/** Standard deviation of an unknown level, ppm: far beyond any difference between the legs (judgement). */
const anyLevel_ppm = 1e4;
/**
 * Scatter and correlation are estimated from the same cast, so variances are larger by this factor (from simulated casts).
 */
export const learntVariance = 1.3;
/** Thin layers show the course of the lag with depth, which is modelled to within this share of it (judgement). */
export const lagShapeShare = 0.1;
/** The balanced salinity is known to this share of itself (judgement). */
const balancedShare = 0.25;
/**
 * A value this many standard deviations from the median of its neighbours is a spike; this many neighbours on each side
 * (common practice, no source).
 */
export const spike = 3;
export const neighbours = 5;
/** A value beyond both its neighbours by this many standard deviations of a jump is also a spike (judgement). */
const isolated = 3;
/**
 * Jumps are estimated over stretches of this many values; surrounding stretches have the same weight (from simulated
 * casts).
 */
const jumpReach = 16;
/** The AR(2) term is estimated over this many values, each jump clipped at this many standard deviations (judgement). */
const turnReach = 64;
const clip = 3;
/** Bounds of `kept` and of -`turned`, so that each value has some independent part (judgement). */
const mostPersistence = 0.99;
const mostTurned = 0.3;

/** The corrections subtracted from the differences, ppm; if one changes much from value to value, so does its error. */
interface TakenOut {
  readonly lagged: Float64Array;
  readonly balanced: Float64Array;
}

/**
 * @param value    differences without lag and without the assumed step, ppm
 * @param pressure of the values, dbar: the correlation is smaller across a gap
 * @param reach    correlation length of the differences, in values
 */
export function legNoise(
  value: Float64Array,
  { lagged, balanced }: TakenOut,
  pressure: Float64Array,
  reach: number,
): LegNoise {
  const n = value.length;
  const spacing = median(pressure.subarray(1).map((p, k) => p - pressure[k]!));
  const { standardDeviation, memory } = waterScatter(value, reach);
  const scatter = standardDeviation.map((s, k) =>
    Math.hypot(s, lagShapeShare * lagged[k]!, balancedShare * balanced[k]!),
  );
  const steps = jumps(value);
  const along = jumpCorrelation(value, steps);
  const [kept, turned] = [new Float64Array(n), new Float64Array(n)];
  const [innovation, jump] = [new Float64Array(n), new Float64Array(n)];
  const spikes = new Uint8Array(n);
  for (let k = 0; k < n; k++) {
    const before = Math.max(0, k - 1);
    const gap = Math.max(1, (pressure[k]! - pressure[before]!) / spacing);
    const misshapen = lagShapeShare * (lagged[k]! - lagged[before]!);
    const unbalanced = balancedShare * (balanced[k]! - balanced[before]!);
    const change = gap * steps[k]! ** 2 + misshapen ** 2 + unbalanced ** 2;
    const forgotten = Math.min(1, change / 2 / (scatter[k]! * scatter[before]!));
    const own = Math.min(mostPersistence, 1 - forgotten);
    // The partial correlation with x[k-2], from the correlation of a jump with the one before.
    const turn = -(2 * along[k]! + forgotten) / (2 - forgotten);
    turned[k] = Math.min(0, Math.max(-mostTurned, turn));
    const straight = learntVariance * (1 - turned[k]! ** 2);
    const share = Math.sqrt(straight * (1 - own ** 2));
    innovation[k] = scatter[k]! * share;
    jump[k] = scatter[k]! * Math.sqrt(straight * 2 * (1 - own));
    // If the correlation is longer than `own` allows, a lasting shift of the level is more probable. A jump is not.
    const lasting = 1 - share / ((1 - turned[k]!) * Math.sqrt(learntVariance * memory[k]!));
    kept[k] = Math.max(own, lasting);
    const around = median(value.subarray(Math.max(0, k - neighbours), k + neighbours + 1));
    const stray = Math.abs(value[k]! - around) > spike * scatter[k]!;
    if (stray || alone(value, k) > isolated * steps[k]!) spikes[k] = 1;
  }
  return { scatter, kept, turned, innovation, jump, spike: spikes };
}

/** Distance of a value beyond both its neighbours; 0 if it lies between them, as within a step. */
function alone(value: Float64Array, k: number): number {
  if (k === 0 || k + 1 >= value.length) return 0;
  const [before, after] = [value[k]! - value[k - 1]!, value[k]! - value[k + 1]!];
  return before * after > 0 ? Math.min(Math.abs(before), Math.abs(after)) : 0;
}

/** The same noise about a level that is a free random walk: only jumps carry information. */
export function asRandomWalk({ turned, jump, spike }: LegNoise): LegNoise {
  const level = (ppm: number) => new Float64Array(jump.length).fill(ppm);
  return { scatter: level(anyLevel_ppm), kept: level(1), turned, innovation: jump, jump, spike };
}

/** Standard deviation of the jump from the value before, in the roughest stretch nearby. */
function jumps(value: Float64Array): Float64Array {
  const n = value.length;
  const half = jumpReach / 2;
  const steps = new Float64Array(Math.max(0, n - 1));
  for (let k = 0; k < steps.length; k++) steps[k] = value[k + 1]! - value[k]!;
  const squares: number[] = [];
  for (let from = 0; from === 0 || from + half < n; from += half) {
    squares.push((winsorisedScale(steps.subarray(from, from + jumpReach - 1)) || 0) ** 2);
  }
  const at = (j: number) => squares[Math.min(squares.length - 1, Math.max(0, j))]!;
  // Half the own square, half the mean over three stretches (judgement).
  const scales = squares.map((own, j) => Math.sqrt(own / 2 + (at(j - 2) + own + at(j + 2)) / 6));
  return new Float64Array(n).map((_, k) => {
    // Stretches overlap by half: this value lies in the middle of one or between two.
    const nearest = Math.round(k / half) - 1;
    let most = leastScatter_ppm;
    for (let j = nearest - 1; j <= nearest + 1; j++) {
      const scale = scales[Math.min(scales.length - 1, Math.max(0, j))]!;
      if (scale > most) most = scale;
    }
    return most;
  });
}

/** Correlation of a jump with the one before it, over the values around. */
function jumpCorrelation(value: Float64Array, jump: Float64Array): Float64Array {
  const n = value.length;
  const products = new Float64Array(n + 1);
  const squares = new Float64Array(n + 1);
  let before = 0;
  for (let k = 0; k < n; k++) {
    const step = k === 0 ? 0 : (value[k]! - value[k - 1]!) / jump[k]!;
    const own = Math.min(clip, Math.max(-clip, step));
    products[k + 1] = products[k]! + own * before;
    squares[k + 1] = squares[k]! + own * own;
    before = own;
  }
  return new Float64Array(n).map((_, k) => {
    const from = Math.max(0, k - turnReach / 2);
    const to = Math.min(n, k + turnReach / 2);
    return (products[to]! - products[from]!) / (squares[to]! - squares[from]!) || 0;
  });
}
