// Search every layer for a step in the difference between the legs, with thermal lag fitted together, because in a
// thermocline one can look like the other.
import { addTo } from "../../statistics/orthonormal.js";

import type { FittedStep, LayerDifferences, WithoutStep } from "./layerDifferences.js";
import { priorStep_ppm } from "./stepThresholds.js";

/** Number of places within a layer that are tried (judgement: a quarter of a layer is 0.5 dbar). */
export const parts = 4;

/**
 * A step must be at least this far from both ends, dbar, or this share of the cast: internal waves move water there that
 * the other leg did not meet (judgement: the heave of a calm cast).
 */
const edge_dbar = 10;
const edgeShare = 1 / 50;

export interface FoundStep {
  /** Natural logarithm of the evidence ratio of a step somewhere, and at the best place, against no step. */
  readonly log: number;
  readonly most: number;
  readonly ppm: number;
  readonly best: FittedStep;
  /** Evidence at each place relative to the best. */
  readonly ratios: Float64Array;
}

export function searchStep(thin: LayerDifferences, beside: WithoutStep): FoundStep {
  const { pressure } = thin;
  const { filter, y, terms, explained } = beside;
  const { own, last, earlier, after } = filter;
  const { units } = terms;
  const n = pressure.length;
  const span = pressure[n - 1]! - pressure[0]!;
  const edge = Math.min(edge_dbar, edgeShare * span);
  const logs = new Float64Array(n * parts).fill(Number.NEGATIVE_INFINITY);
  let most = Number.NEGATIVE_INFINITY;
  let best = { ppm: 0, layer: 0, part: 0 };
  let shares = new Float64Array(units.length);
  // Sums over the complete layers above: information, product with y, products with the unit terms.
  let [square, right] = [0, 0];
  const shared = new Float64Array(units.length);
  const sharedHere = new Float64Array(units.length);
  for (let k = 0; k < n; k++) {
    if (own[k] === 0) continue;
    // The step enters the whitened values of this layer and the next two.
    const next = Math.max(0, after[k]!);
    const second = Math.max(0, after[next]!);
    const ofNext = after[k]! < 0 ? 0 : -last[next]!;
    const beforeNext = after[k]! < 0 ? 0 : -earlier[next]!;
    const ofSecond = after[k]! < 0 || after[next]! < 0 ? 0 : -earlier[second]!;
    const whole = own[k]! - last[k]! - earlier[k]!;
    const nearest = Math.min(pressure[k]! - pressure[0]!, pressure[n - 1]! - pressure[k]!);
    for (let i = nearest < edge ? parts : 0; i < parts; i++) {
      const part = i / parts;
      const here = own[k]! * part - last[k]! - earlier[k]!;
      const below = ofNext * part + beforeNext;
      const further = ofSecond * part;
      let information = square + here ** 2 + below ** 2 + further ** 2 + priorStep_ppm ** -2;
      let value = right + here * y[k]! + below * y[next]! + further * y[second]!;
      for (let j = 0; j < units.length; j++) {
        const unit = units[j]!;
        const share = shared[j]! + here * unit[k]! + below * unit[next]! + further * unit[second]!;
        information -= share * share;
        value -= share * explained[j]!;
        sharedHere[j] = share;
      }
      const log = 0.5 * (value ** 2 / information - Math.log(information * priorStep_ppm ** 2));
      logs[k * parts + i] = log;
      if (log <= most) continue;
      most = log;
      best = { ppm: value / information, layer: k, part };
      shares = sharedHere.slice();
    }
    square += whole ** 2;
    right += whole * y[k]!;
    for (let j = 0; j < units.length; j++) shared[j]! += whole * units[j]![k]!;
  }
  const ratios = logs.map((log) => Math.exp(log - most));
  return {
    most,
    log: most + Math.log(ratios.reduce((sum, ratio) => sum + ratio, 0) / logs.length),
    ppm: best.ppm,
    best: { ...best, ...fittedBeside(thin, beside, shares, best.ppm) },
    ratios,
  };
}

/** The lag and the balanced salinity fitted together with a step, ppm. */
function fittedBeside(
  { lag, balanced: ofBalance }: LayerDifferences,
  { terms, explained }: WithoutStep,
  shares: Float64Array,
  ppm: number,
): Pick<FittedStep, "lagged" | "balanced"> {
  const factors = new Float64Array(lag.length + 1);
  for (const [j, own] of terms.factors.entries()) {
    addTo(factors, explained[j]! - shares[j]! * ppm, own);
  }
  const lagged = new Float64Array(ofBalance.column.length);
  for (const [i, { column }] of lag.entries()) addTo(lagged, factors[i]!, column);
  const balanced = ofBalance.column.map((value) => factors[lag.length]! * value);
  return { lagged, balanced };
}
