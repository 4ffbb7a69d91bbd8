// The matches of the legs, averaged in layers of a given number of matches: their differences, and the terms other than a step
// that may explain them.
import { priorTimesUsual, publishedLag } from "../../response/lag/lagPrior.js";
import type { MatchedLegs } from "../../response/match/matchLegs.js";
import type { PriorTerm } from "../../statistics/orthonormal.js";
import { balancedSalinity } from "./balancedSalinity.js";
import type { LayerDifferences } from "./layerDifferences.js";
import type { LegSeries } from "./legSeries.js";

/**
 * The lag may change by this share of the usual over the cast, and may be rougher or smoother by this share (judgement).
 */
const priorLagChange = 0.2;
const priorRoughness = 1;
/** Salinity may balance all temperature differences between the legs, or none (judgement). */
const priorBalanced = 1;
/** Distance over which the lag decays, dbar: the usual time constant at 1 dbar/s. */
const lagMemory_dbar = publishedLag.tau_s;

/** @param perLayer matches that are combined into one value */
export function differencesOfMatches(
  matched: MatchedLegs,
  series: LegSeries,
  perLayer: number,
): LayerDifferences {
  const { difference_ppm, lag_ppm, pressure_dbar, reach } = series;
  const n = Math.floor(difference_ppm.length / perLayer);
  const mean = (column: Float64Array) =>
    new Float64Array(n).map((_, k) => {
      let sum = 0;
      for (let i = 0; i < perLayer; i++) sum += column[perLayer * k + i]!;
      return sum / perLayer;
    });
  const lag = mean(lag_ppm);
  const pressure = mean(pressure_dbar);
  return {
    difference: mean(difference_ppm),
    pressure,
    lag: lagTerms(lag, pressure),
    balanced: { column: balancedOf(matched, series, mean), standardDeviation: priorBalanced },
    otherLag: otherLag(lag, pressure),
    reach: Math.max(2, Math.round(reach / perLayer)),
  };
}

/** The usual lag, and the errors from its unknown initial state: at the top for the down leg, at the bottom for the up leg. */
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
