// Whether the difference between the legs starts at a pressure p0, and at which. A film that came at p0, on either leg,
// makes the legs differ above p0 and agree below it. Step and thermal lag are fitted together, because in a thermocline one
// can look like the other.
import { sum } from "d3-array";
import type { MatchedLegs } from "../../response/match/matchLegs.js";
import { differencesOfMatches } from "./differencesOfMatches.js";
import {
  type FittedStep,
  fitWithoutStep,
  type LayerDifferences,
  type WithoutStep,
  withoutStep,
} from "./layerDifferences.js";
import { asRandomWalk, type LegNoise, legNoise } from "./legNoise.js";
import { type LegSeries, matchesPerLayer } from "./legSeries.js";
import { logAgainstRandomWalk, logRatioOfOtherWater, lossToOtherLag } from "./stepAlternatives.js";
import { type FoundStep, parts, searchStep } from "./stepSearch.js";
import { leastBayesFactor, leastStep_ppm } from "./stepThresholds.js";

export interface LegStep {
  /** Up minus down above the step minus the same below it, ppm. */
  readonly ppm: number;
  /** Probability, given a step, that it lies just above each value of the series; sums to one. */
  readonly probability: Float64Array;
  /** The most probable such value. */
  readonly at: number;
}

/**
 * Required evidence ratio of a step against three alternatives: lag of any course [KassRaftery1995]; a difference that is
 * constant or linear in pressure, as between two waters; a wandering level, as in interleaving waters ("strong" is 20; 5
 * for waters that are rare; judgement).
 */
const leastRatioToOtherLag = 20;
const leastRatioToOtherWater = 5;
const leastRatioToRandomWalk = 20;
/** Number of rounds in which the step of the round before is excluded from the scatter (judgement). */
const rounds = 3;
/** With fewer thin layers there is no search for a step (judgement). */
const fewestLayers = 12;
/**
 * A film that takes minutes to come makes a ramp. In thin layers that looks like a wandering level or like a slope, in thick layers
 * like a step. Layers of one minute and of two at the usual 1 dbar/s. `beside` so many must lie on either side, and three times as
 * many in all: fewer cannot show that a level holds, and the upper water often differs between the legs (judgement).
 */
const ramps = [
  { layer_dbar: 50, beside: 4 },
  { layer_dbar: 100, beside: 3 },
];

/** @returns undefined if there is no significant step */
export function legsOnset(
  matched: MatchedLegs,
  series: LegSeries,
  timesUsual: number,
): LegStep | undefined {
  const thin = stepInLayers(matched, series, timesUsual, matchesPerLayer, fewestLayers);
  if (thin === undefined) return undefined;
  if (!(isNoOtherWater(thin) && isNoRandomWalk(thin))) {
    const { pressure_dbar: p } = series;
    const spacing = (p[p.length - 1]! - p[0]!) / (p.length - 1);
    const isRamp = ramps.some(({ layer_dbar, beside }) => {
      const perLayer = Math.round(layer_dbar / spacing);
      const thick = stepInLayers(matched, series, timesUsual, perLayer, 3 * beside);
      return (
        thick !== undefined &&
        isNoOtherWater(thick) &&
        isBetweenLevels(thick, beside) &&
        isNoRandomWalk(thick)
      );
    });
    if (!isRamp) return undefined;
  }
  const { ppm, ratios } = thin.found;
  const total = sum(ratios);
  const probability = new Float64Array(series.index.length);
  for (const [i, ratio] of ratios.entries()) {
    const at = Math.round((matchesPerLayer * i) / parts);
    probability[Math.min(probability.length - 1, at)]! += ratio / total;
  }
  return { ppm, probability, at: probability.indexOf(Math.max(...probability)) };
}

interface StepInLayers {
  readonly layers: LayerDifferences;
  readonly noise: LegNoise;
  readonly beside: WithoutStep;
  readonly found: FoundStep;
}

/**
 * The best step, in layers of a given number of matches.
 * @param fewest layers that there must be
 * @returns undefined if it is small, or if no step or another lag explains the layers nearly as well
 */
function stepInLayers(
  matched: MatchedLegs,
  series: LegSeries,
  timesUsual: number,
  perLayer: number,
  fewest: number,
): StepInLayers | undefined {
  if (series.index.length < perLayer * fewest) return undefined;
  const layers = differencesOfMatches(matched, series, perLayer);
  const lagged = layers.lag[0]!.column.map((lag) => timesUsual * lag);
  let best: FittedStep = {
    ppm: 0,
    layer: 0,
    part: 0,
    lagged,
    balanced: new Float64Array(lagged.length),
  };
  for (let round = 1; round < rounds; round++) {
    best = searchStep(layers, fitWithoutStep(layers, noiseWithout(layers, best))).best;
  }
  const noise = noiseWithout(layers, best);
  const beside = fitWithoutStep(layers, noise);
  const found = searchStep(layers, beside);
  if (!(found.log > Math.log(leastBayesFactor) && Math.abs(found.ppm) >= leastStep_ppm))
    return undefined;
  const ratioToOtherLag = found.log - lossToOtherLag(layers, beside, found.best);
  if (!(ratioToOtherLag > Math.log(leastRatioToOtherLag))) return undefined;
  return { layers, noise, beside, found };
}

function isNoOtherWater({ layers, beside, found }: StepInLayers): boolean {
  return found.log - logRatioOfOtherWater(layers, beside) > Math.log(leastRatioToOtherWater);
}

function isBetweenLevels({ layers, found }: StepInLayers, beside: number): boolean {
  const { layer } = found.best;
  return Math.min(layer, layers.pressure.length - 1 - layer) >= beside;
}

function isNoRandomWalk({ layers, noise, beside, found }: StepInLayers): boolean {
  const randomWalk = fitWithoutStep(layers, asRandomWalk(noise));
  const ratio = logAgainstRandomWalk(layers, beside, randomWalk, found);
  return ratio > Math.log(leastRatioToRandomWalk);
}

function noiseWithout(thin: LayerDifferences, step: FittedStep): LegNoise {
  return legNoise(withoutStep(thin, step), step, thin.pressure, thin.reach);
}
