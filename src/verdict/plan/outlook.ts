// The expected standing of a verdict after a future sampling. Outcomes are drawn from the joint prediction of the
// hypotheses, and each is processed as if it had been observed. Preposterior analysis, after [RaiffaSchlaifer1961].

import { condition, copyOf, projected } from "../../model/gaussian.js";
import type { Hypothesis } from "../../model/hypothesis.js";
import { logSum } from "../../statistics/logSum.js";
import { normalQuantile } from "../../statistics/normal.js";
import { dot } from "../../statistics/orthonormal.js";
import type { Standing } from "./settled.js";

/** The values that a sampling would bring: the row of each value on the coefficients, and the variance of its error. */
export interface SampledRow {
  readonly row: Float64Array;
  readonly variance: number;
}

/** Expectations over the outcomes of a sampling. */
export interface SamplingOutlook {
  /** Probability that the verdict is settled afterwards. */
  readonly settles: number;
  /** Mean probability of the most probable cause afterwards; by Bayes it cannot be less than now. */
  readonly leading: number;
}

/**
 * Number of outcomes drawn: the probabilities are then right to about a twentieth, and are reported in tenths (judgement:
 * cost).
 */
const usualDraws = 64;
/** Skip branches with at most this log weight (judgement: cost). */
const leastLogWeight = Math.log(1e-6);

/**
 * @param branches all possible states at the sampling; the weights sum to one
 * @param stands   the standing of a verdict with given hypotheses, which are overwritten after the call
 */
export function outlookAfter(
  branches: readonly Hypothesis[],
  rows: readonly SampledRow[],
  stands: (updated: readonly Hypothesis[]) => Standing,
  draws: number = usualDraws,
): SamplingOutlook {
  const updates = branches.map((branch) => updateOf(branch, rows));
  const updated = updates.map((update) => update.updated);
  const outcome = new Float64Array(rows.length);
  const logs = new Float64Array(updates.length);
  let settles = 0;
  let leading = 0;
  // The number of draws from a branch is proportional to its weight: draws are spaced evenly over the cumulative weights.
  let upTo = 0;
  let from = 0;
  for (let draw = 1; draw <= draws; draw++) {
    while (from < updates.length && upTo < (draw - 0.5) / draws) {
      upTo += Math.exp(updates[from]!.branch.logWeight);
      from++;
    }
    drawInto(outcome, updates[from - 1]!, draw);
    weighAll(updates, outcome, logs);
    const standing = stands(updated);
    settles += standing.settled ? 1 : 0;
    leading += standing.leading;
  }
  return { settles: settles / draws, leading: leading / draws };
}

/** The effect of the rows on one branch that is the same for all values: the values only change its mean and its weight. */
interface Update {
  readonly branch: Hypothesis;
  /** The branch after an outcome: weight and mean belong to the current outcome. */
  readonly updated: UpdatedBranch;
  /** By row: its prediction before any row, the variance of its innovation, and log(2 pi variance). */
  readonly expected: Float64Array;
  readonly totals: Float64Array;
  readonly logScales: Float64Array;
  /** Change of the mean for one unit of innovation of a row, row by row. */
  readonly gains: Float64Array;
  /** Change of the prediction of every row for one unit of innovation of a row, row by row. */
  readonly crossGains: Float64Array;
  readonly innovations: Float64Array;
}
interface UpdatedBranch extends Hypothesis {
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
  const crossGains = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    const gain = gains.subarray(i * size, (i + 1) * size);
    for (let k = 0; k < count; k++) crossGains[i * count + k] = dot(rows[k]!.row, gain);
  }
  return {
    branch,
    updated: { ...branch, state },
    expected: Float64Array.from(rows, ({ row }) => dot(row, branch.state.mean)),
    totals,
    logScales: totals.map((total) => Math.log(2 * Math.PI * total)),
    gains,
    crossGains,
    innovations: new Float64Array(count),
  };
}

/** An outcome as predicted by a branch, value after value. */
function drawInto(outcome: Float64Array, update: Update, draw: number): void {
  const { expected, totals, crossGains } = update;
  const count = outcome.length;
  outcome.set(expected);
  for (let i = 0; i < count; i++) {
    const innovation = Math.sqrt(totals[i]!) * normalQuantile(halton(draw, i));
    outcome[i]! += innovation;
    for (let k = i + 1; k < count; k++) outcome[k]! += innovation * crossGains[i * count + k]!;
  }
}

/** Changes in place: the branches are updated with the outcome. */
function weighAll(updates: readonly Update[], outcome: Float64Array, logs: Float64Array): void {
  for (let n = 0; n < updates.length; n++) logs[n] = logWeightOf(updates[n]!, outcome);
  const total = logSum(logs);
  for (let n = 0; n < updates.length; n++) {
    const { updated } = updates[n]!;
    updated.logWeight = logs[n]! - total;
    if (updated.logWeight >= leastLogWeight) moveMean(updates[n]!);
  }
}

/** Stores the innovations in place. */
function logWeightOf(
  { branch, expected, totals, logScales, crossGains, innovations }: Update,
  outcome: Float64Array,
): number {
  const count = outcome.length;
  let { logWeight } = branch;
  for (let i = 0; i < count; i++) {
    let innovation = outcome[i]! - expected[i]!;
    for (let k = 0; k < i; k++) innovation -= innovations[k]! * crossGains[k * count + i]!;
    innovations[i] = innovation;
    // The log density of a normal variable, its constant part taken beforehand.
    logWeight += -0.5 * (logScales[i]! + (innovation * innovation) / totals[i]!);
  }
  return logWeight;
}

function moveMean({ branch, updated, gains, innovations }: Update): void {
  const { mean } = updated.state;
  const size = mean.length;
  mean.set(branch.state.mean);
  for (let i = 0; i < innovations.length; i++) {
    const innovation = innovations[i]!;
    for (let k = 0; k < size; k++) mean[k]! += innovation * gains[i * size + k]!;
  }
}

// The first primes, one for each dimension: by definition of the sequence [Halton1960].
const primes = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37];

/** Points that fill a cube evenly, identical at every run [Halton1960]: the digits of the number mirrored at the point. */
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
