// Whether the difference between the legs starts at a pressure p0, and at which. A film that came at p0, on either leg,
// makes the legs differ above p0 and agree below it. Step and thermal lag are fitted together, because in a thermocline one
// can look like the other.
import { priorTimesUsual, publishedLag } from "../../response/lag/lagPrior.js";
import type { MatchedLegs } from "../../response/match/matchLegs.js";
import type { PriorTerm } from "../../statistics/orthonormal.js";
import { balancedSalinity } from "./balancedSalinity.js";
import {
  type FittedStep,
  fitWithoutStep,
  type LayerDifferences,
  withoutStep,
} from "./layerDifferences.js";
import { asRandomWalk, type LegNoise, legNoise } from "./legNoise.js";
import { type LegSeries, matchesPerLayer } from "./legSeries.js";
import { logAgainstRandomWalk, logRatioOfOtherWater, lossToOtherLag } from "./stepAlternatives.js";
import { parts, searchStep } from "./stepSearch.js";
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
 * The lag may change by this share of the usual over the cast, and may be rougher or smoother by this share (judgement).
 */
const priorLagChange = 0.2;
const priorRoughness = 1;
/** Salinity may balance all temperature differences between the legs, or none (judgement). */
const priorBalanced = 1;
/** Distance over which the lag decays, dbar: the usual time constant at 1 dbar/s. */
const lagMemory_dbar = publishedLag.tau_s;

/** @returns undefined if there is no significant step */
export function legsOnset(
  matched: MatchedLegs,
  series: LegSeries,
  timesUsual: number,
): LegStep | undefined {
  if (series.index.length < matchesPerLayer * fewestLayers) return undefined;
  const thin = layerDifferences(matched, series);
  const lagged = thin.lag[0]!.column.map((lag) => timesUsual * lag);
  let best: FittedStep = {
    ppm: 0,
    layer: 0,
    part: 0,
    lagged,
    balanced: new Float64Array(lagged.length),
  };
  for (let round = 1; round < rounds; round++) {
    best = searchStep(thin, fitWithoutStep(thin, noiseWithout(thin, best))).best;
  }
  const noise = noiseWithout(thin, best);
  const beside = fitWithoutStep(thin, noise);
  const found = searchStep(thin, beside);
  const { ppm, ratios } = found;
  if (!(found.log > Math.log(leastBayesFactor) && Math.abs(ppm) >= leastStep_ppm)) return undefined;
  const ratioToOtherLag = found.log - lossToOtherLag(thin, beside, found.best);
  if (!(ratioToOtherLag > Math.log(leastRatioToOtherLag))) return undefined;
  const ratioToOtherWater = found.log - logRatioOfOtherWater(thin, beside);
  if (!(ratioToOtherWater > Math.log(leastRatioToOtherWater))) return undefined;
  const randomWalk = fitWithoutStep(thin, asRandomWalk(noise));
  const ratioToRandomWalk = logAgainstRandomWalk(thin, beside, randomWalk, found);
  if (!(ratioToRandomWalk > Math.log(leastRatioToRandomWalk))) return undefined;
  const total = ratios.reduce((sum, r) => sum + r, 0);
  const probability = new Float64Array(series.index.length);
  for (const [i, ratio] of ratios.entries()) {
    const at = Math.round((matchesPerLayer * i) / parts);
    probability[Math.min(probability.length - 1, at)]! += ratio / total;
  }
  return { ppm, probability, at: probability.indexOf(Math.max(...probability)) };
}

/** Combine neighbouring matches of one thin layer into one value. */
function layerDifferences(matched: MatchedLegs, series: LegSeries): LayerDifferences {
  const { difference_ppm, lag_ppm, pressure_dbar, reach } = series;
  const n = Math.floor(difference_ppm.length / matchesPerLayer);
  const mean = (column: Float64Array) =>
    new Float64Array(n).map((_, k) => {
      let sum = 0;
      for (let i = 0; i < matchesPerLayer; i++) sum += column[matchesPerLayer * k + i]!;
      return sum / matchesPerLayer;
    });
  const lag = mean(lag_ppm);
  const pressure = mean(pressure_dbar);
  return {
    difference: mean(difference_ppm),
    pressure,
    lag: lagTerms(lag, pressure),
    balanced: { column: balancedOf(matched, series, mean), standardDeviation: priorBalanced },
    otherLag: otherLag(lag, pressure),
    reach: Math.max(2, Math.round(reach / matchesPerLayer)),
  };
}

/** The usual lag, and an error of its unknown initial state: of the down leg at the top, of the up leg at the bottom. */
function lagTerms(lag: Float64Array, pressure: Float64Array): readonly PriorTerm[] {
  const since = (end: number) =>
    pressure.map((p) => lag[end]! * Math.exp(-Math.abs(p - pressure[end]!) / lagMemory_dbar));
  return [lag, since(0), since(lag.length - 1)].map((column) => ({
    column,
    standardDeviation: priorTimesUsual,
  }));
}

/**
 * Deviations of the lag from its model: a longer or shorter time constant makes it smoother or rougher, and it may change
 * with depth.
 */
function otherLag(lag: Float64Array, pressure: Float64Array): readonly PriorTerm[] {
  const n = lag.length;
  const span = pressure[n - 1]! - pressure[0]!;
  const smooth = lag.slice();
  const follow = (k: number, before: number) => {
    const kept = Math.exp(-Math.abs(pressure[k]! - pressure[before]!) / lagMemory_dbar);
    smooth[k] = kept * smooth[before]! + (1 - kept) * smooth[k]!;
  };
  for (let k = 1; k < n; k++) follow(k, k - 1);
  for (let k = n - 2; k >= 0; k--) follow(k, k + 1);
  return [
    { column: smooth.map((value, k) => value - lag[k]!), standardDeviation: priorRoughness },
    {
      column: lag.map((l, k) => ((2 * (pressure[k]! - pressure[0]!)) / span - 1) * l),
      standardDeviation: priorLagChange,
    },
  ];
}

/** Mean of the matches on both legs. */
function balancedOf(
  matched: MatchedLegs,
  { index }: LegSeries,
  mean: (column: Float64Array) => Float64Array,
): Float64Array {
  const own = (column: Float64Array) => mean(Float64Array.from(index, (i) => column[i]!));
  return balancedSalinity({
    pressureUp_dbar: own(matched.pressureUp_dbar),
    pressureDown_dbar: own(matched.pressureDown_dbar),
    potentialTemperature_C: own(matched.potentialTemperature_C),
    salinity: own(matched.salinityDown),
    ppmPerSalinity: own(matched.ppmPerSalinity),
  });
}

function noiseWithout(thin: LayerDifferences, step: FittedStep): LegNoise {
  return legNoise(withoutStep(thin, step), step, thin.pressure, thin.reach);
}
