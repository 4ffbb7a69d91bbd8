// Alternatives to a step in the difference between the legs, as evidence ratios against the step.
import type { PriorTerm } from "../../statistics/orthonormal.js";

import {
  type FittedStep,
  type LayerDifferences,
  logEvidence,
  shareAbove,
  type WithoutStep,
  whitenedTerms,
  withoutStep,
} from "./layerDifferences.js";
import type { FoundStep } from "./stepSearch.js";
import { priorStep_ppm } from "./stepThresholds.js";
import { whitened } from "./whitening.js";

/** The step is compared with a random walk over this distance on either side, dbar (from simulated casts). */
const around_dbar = 150;

/** Log evidence ratio of a difference that is constant, or linear in pressure, against lag alone. */
export function logRatioOfOtherWater(
  { pressure, lag, balanced }: LayerDifferences,
  { filter, y, terms }: WithoutStep,
): number {
  const n = pressure.length;
  const span = pressure[n - 1]! - pressure[0]!;
  const level = new Float64Array(n).fill(1);
  const slope = pressure.map((p) => (2 * (p - pressure[0]!)) / span - 1);
  const logs = [[level], [level, slope]].map((columns) => {
    const waters = columns.map((column) => ({ column, standardDeviation: priorStep_ppm }));
    return logEvidence(whitenedTerms([...lag, balanced, ...waters], filter), y);
  });
  return Math.max(...logs) - logEvidence(terms, y);
}

/** Decrease of the log evidence for a step if the lag may have another course. */
export function lossToOtherLag(
  { pressure, lag, otherLag, balanced }: LayerDifferences,
  { filter, y }: WithoutStep,
  best: FittedStep,
): number {
  const column = pressure.map((_, k) => shareAbove(k, best));
  const step = { column, standardDeviation: priorStep_ppm };
  const gain = (terms: readonly PriorTerm[]) =>
    logEvidence(whitenedTerms([...terms, step], filter), y) -
    logEvidence(whitenedTerms(terms, filter), y);
  const usual = [...lag, balanced];
  return gain(usual) - gain([...usual, ...otherLag]);
}

/**
 * Log evidence ratio of the step against no step and against a random walk of the level, as between two waters; from the
 * layers around it.
 */
export function logAgainstRandomWalk(
  thin: LayerDifferences,
  steady: WithoutStep,
  randomWalk: WithoutStep,
  { most, log, best }: FoundStep,
): number {
  const { pressure } = thin;
  const value = withoutStep(thin, best);
  const left = whitened(steady.filter, value);
  const jumps = randomWalk.y.slice();
  for (const [j, unit] of randomWalk.terms.units.entries()) {
    for (let k = 0; k < jumps.length; k++) jumps[k]! -= randomWalk.explained[j]! * unit[k]!;
  }
  let sum = log - most;
  const p0 = pressure[best.layer]!;
  for (let k = 0; k < value.length; k++) {
    if (steady.filter.before[k]! < 0 || Math.abs(pressure[k]! - p0) > around_dbar) continue;
    sum += (jumps[k]! ** 2 - left[k]! ** 2) / 2;
    sum += Math.log(steady.filter.own[k]! / randomWalk.filter.own[k]!);
  }
  return sum;
}
