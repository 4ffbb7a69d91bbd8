// How a verdict is expected to stand after a sampling that has not been made: outcomes are drawn from what the hypotheses
// together predict, and each is weighed as if it had been seen. Preposterior analysis, after [RaiffaSchlaifer1961].

import { condition, copyOf, projected } from "../../model/gaussian.js";
import type { Hypothesis } from "../../model/hypothesis.js";
import { logSum } from "../../statistics/logSum.js";
import { normalQuantile } from "../../statistics/normal.js";
import type { Standing } from "./settled.js";

/** What a sampling would bring: how each value sees the coefficients, and the variance of its error. */
export interface SampledRow {
  readonly row: Float64Array;
  readonly variance: number;
}

/** Expected over the outcomes of a sampling. */
export interface Outlook {
  /** Probability that the verdict is settled then. */
  readonly settles: number;
  /** Probability that the most probable cause has then, on average; by Bayes it cannot be less than now. */
  readonly leading: number;
}

/** Outcomes that are drawn: the shares are then right to about a twentieth, and are told in tenths (judgement: cost). */
const usualDraws = 64;
/** Skip branches of no more than this log weight (judgement: cost). */
const nothingLeft = Math.log(1e-6);

/**
 * @param branches all that may be so when the sampling is made, weights summing to one
 * @param stands   how a verdict stands that holds these hypotheses; they are overwritten after the call
 */
export function outlookAfter(
  branches: readonly Hypothesis[],
  rows: readonly SampledRow[],
  stands: (held: readonly Hypothesis[]) => Standing,
  draws: number = usualDraws,
): Outlook {
  const updates = branches.map((branch) => updateOf(branch, rows));
  const held = updates.map((update) => update.held);
  const outcome = new Float64Array(rows.length);
  const logs = new Float64Array(updates.length);
  let settles = 0;
  let leading = 0;
  // Every branch is drawn from as often as its weight says: the draws go evenly through the weights laid end to end.
  let upTo = 0;
  let from = 0;
  for (let draw = 1; draw <= draws; draw++) {
    while (from < updates.length && upTo < (draw - 0.5) / draws) {
      upTo += Math.exp(updates[from]!.branch.logWeight);
      from++;
    }
    drawInto(outcome, updates[from - 1]!, draw);
    weighAll(updates, outcome, logs);
    const standing = stands(held);
    settles += standing.settled ? 1 : 0;
    leading += standing.leading;
  }
  return { settles: settles / draws, leading: leading / draws };
}

/** What the rows do to one branch, whatever their values: those move its mean only, and its weight. */
interface Update {
  readonly branch: Hypothesis;
  /** The branch once an outcome is seen: its weight and mean are those of the outcome at hand. */
  readonly held: Held;
  /** By row: what was expected before any row, the variance of the innovation, and what its log density is made of. */
  readonly expected: Float64Array;
  readonly totals: Float64Array;
  readonly logScales: Float64Array;
  /** What one unit of innovation of a row adds to the mean, row by row. */
  readonly gains: Float64Array;
  /** What it adds to what is expected of every row, row by row. */
  readonly carries: Float64Array;
  readonly innovations: Float64Array;
}
interface Held extends Hypothesis {
  logWeight: number;
}

function updateOf(branch: Hypothesis, rows: readonly SampledRow[]): Update {
  const state = copyOf(branch.state);
  const size = state.mean.length;
  const count = rows.length;
  const gains = new Float64Array(count * size);
  const totals = new Float64Array(count);
  const before = state.mean.slice();
  for (let i = 0; i < count; i++) {
    const { row, variance } = rows[i]!;
    const { mean, variance: spread } = projected(state, row);
    condition(state, row, mean + 1, variance);
    totals[i] = spread + variance;
    for (let k = 0; k < size; k++) gains[i * size + k] = state.mean[k]! - before[k]!;
    state.mean.set(before);
  }
  const carries = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    const gain = gains.subarray(i * size, (i + 1) * size);
    for (let k = 0; k < count; k++) carries[i * count + k] = dot(rows[k]!.row, gain);
  }
  return {
    branch,
    held: { ...branch, state },
    expected: Float64Array.from(rows, ({ row }) => dot(row, branch.state.mean)),
    totals,
    logScales: totals.map((total) => Math.log(2 * Math.PI * total)),
    gains,
    carries,
    innovations: new Float64Array(count),
  };
}

/** An outcome as a branch predicts it, value after value. */
function drawInto(outcome: Float64Array, update: Update, draw: number): void {
  const { expected, totals, carries } = update;
  const count = outcome.length;
  outcome.set(expected);
  for (let i = 0; i < count; i++) {
    const innovation = Math.sqrt(totals[i]!) * normalQuantile(halton(draw, i));
    outcome[i]! += innovation;
    for (let k = i + 1; k < count; k++) outcome[k]! += innovation * carries[i * count + k]!;
  }
}

/** In place: the branches as they are once the outcome is seen. */
function weighAll(updates: readonly Update[], outcome: Float64Array, logs: Float64Array): void {
  for (let n = 0; n < updates.length; n++) logs[n] = logWeightOf(updates[n]!, outcome);
  const total = logSum(logs);
  for (let n = 0; n < updates.length; n++) {
    const { held } = updates[n]!;
    held.logWeight = logs[n]! - total;
    if (held.logWeight >= nothingLeft) moveMean(updates[n]!);
  }
}

/** Leaves the innovations behind. */
function logWeightOf(
  { branch, expected, totals, logScales, carries, innovations }: Update,
  outcome: Float64Array,
): number {
  const count = outcome.length;
  let { logWeight } = branch;
  for (let i = 0; i < count; i++) {
    let innovation = outcome[i]! - expected[i]!;
    for (let k = 0; k < i; k++) innovation -= innovations[k]! * carries[k * count + i]!;
    innovations[i] = innovation;
    // The log density of a normal variable, its constant part taken beforehand.
    logWeight += -0.5 * (logScales[i]! + (innovation * innovation) / totals[i]!);
  }
  return logWeight;
}

function moveMean({ branch, held, gains, innovations }: Update): void {
  const { mean } = held.state;
  const size = mean.length;
  mean.set(branch.state.mean);
  for (let i = 0; i < innovations.length; i++) {
    const innovation = innovations[i]!;
    for (let k = 0; k < size; k++) mean[k]! += innovation * gains[i * size + k]!;
  }
}

// The first primes, one a dimension: by definition of the sequence [Halton1960].
const primes = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37];

/** Points that fill a cube evenly, the same at every run [Halton1960]: the digits of the number mirrored at the point. */
function halton(number: number, dimension: number): number {
  const base = primes[dimension % primes.length]!;
  let share = 0;
  let digit = 1 / base;
  for (let rest = number; rest > 0; rest = Math.floor(rest / base)) {
    share += (rest % base) * digit;
    digit /= base;
  }
  return share;
}

function dot(row: Float64Array, mean: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < row.length; k++) sum += row[k]! * mean[k]!;
  return sum;
}
