// The matched legs as a few layers, thick enough that their errors are independent. Each has the difference up minus down
// and a variance estimated from the cast itself.

import { deviation } from "d3-array";
import type { LeftOut } from "../../model/observation.js";
import type { CellLagFit, KnownStep } from "../../response/lag/cellLag.js";
import type { MatchedLegs } from "../../response/match/matchLegs.js";
import { median } from "../../statistics/robustCentre.js";
import { type LegSeries, legSeries, matchesPerLayer } from "./legSeries.js";
import { sharedErrorOfMean, withSharedError } from "./sharedError.js";
import { shareOfUpperWater } from "./upperWater.js";

interface LegLayer {
  readonly pressure_dbar: number;
  readonly value_ppm: number;
  readonly variance_ppm2: number;
  /** The usual change of the upper water here, as a share of that at the surface of the ocean. */
  readonly upperWater: number;
  /** Effect of heat in the outer parts of the cell, of the size in `CellLagFit`. */
  readonly outerHeat_ppm: number;
}

export interface LegLayers {
  /** Shallowest first. */
  readonly layers: readonly LegLayer[];
  readonly series: LegSeries;
  readonly lag: CellLagFit;
  /** Standard uncertainty of the mean of the layers due to the lag, ppm. */
  readonly lagUncertainty_ppm: number;
  readonly leftOut: readonly LeftOut[];
}

/** A layer with less than this share of its values, or with fewer than this number, is excluded (judgement). */
const leastShare = 1 / 4;
const fewest = 3;
/** A value this many standard deviations from its layer's median is a spike (common practice, no source). */
const spike = 4;
/**
 * Errors of cell, thermometer and pressure gauge that do not repeat between the legs; one error common to all layers, ppm
 * (judgement: a tenth of a dbar alone is 1 ppm).
 */
const unrepeatable_ppm = 1.5;
/**
 * The legs are matched by temperature, and this is the error of a match, K: the water has changed a little, or the thermometer
 * has (judgement). In a polar halocline, where temperature is nearly uniform, it is worth 0.01 in salinity.
 */
const sameWater_K = 0.001;
/** The lag model is not exact: this share of the lag correction stays uncertain (judgement). */
const lagShapeShare = 0.08;

/**
 * This number of ratios of 1 is added before neighbours are compared, so that a few layers do not have too much influence
 * (judgement).
 */
const ratiosBefore = 5;

/**
 * @param lag  fitted to the same matches with the same step
 * @param step is excluded from the scatter, and no layer crosses it
 */
export function legLayers(matched: MatchedLegs, lag: CellLagFit, step?: KnownStep): LegLayers {
  const { series, size, ambiguous } = legSeries(matched, lag, step);
  const { layers, meanLags, leftOut } = gatherLayers(matched, series, size, step);
  const ofAmplitude = Math.hypot(lag.timesUsualUncertainty, lagShapeShare * lag.timesUsual);
  const shares = meanLags.map(({ own, perTau }) =>
    Math.hypot(ofAmplitude * own, lag.timesUsual * perTau),
  );
  return {
    layers: consistent(withSharedError(layers, shares, unrepeatable_ppm)),
    series,
    lag,
    lagUncertainty_ppm: sharedErrorOfMean(layers, shares),
    leftOut: [...leftOut, ...doubleValued(ambiguous, matched)],
  };
}

/** Average the series in layers of equal thickness: the mean of each layer without spikes. */
function gatherLayers(
  matched: MatchedLegs,
  series: LegSeries,
  size: number,
  step: KnownStep | undefined,
) {
  const { index, pressure_dbar, value_ppm, standardDeviation_ppm, memory, fresh } = series;
  const { thickness_dbar } = matched;
  const layers: LegLayer[] = [];
  const meanLags: { readonly own: number; readonly perTau: number }[] = [];
  const leftOut: LeftOut[] = [];
  const thickness = (size * thickness_dbar) / matchesPerLayer;
  for (let from = 0; from < index.length; ) {
    const top = pressure_dbar[from]!;
    const onset =
      step !== undefined && step.pressure_dbar > top ? step.pressure_dbar : top + thickness;
    const end = Math.min(top + thickness, onset);
    // Every layer contains its first value at any pressure, so that the loop ends.
    let to = from + 1;
    while (to < index.length && pressure_dbar[to]! < end) to++;
    const centre = median(value_ppm.subarray(from, to));
    const kept: number[] = [];
    for (let k = from; k < to; k++) {
      if (Math.abs(value_ppm[k]! - centre) <= spike * standardDeviation_ppm[k]!) kept.push(k);
    }
    const mean = (value: (k: number) => number) =>
      kept.reduce((sum, k) => sum + value(k), 0) / kept.length;
    if (kept.length < Math.max(fewest, leastShare * size)) {
      const bottom = pressure_dbar[to - 1]!;
      leftOut.push({
        what: `layer from ${top.toFixed(0)} to ${bottom.toFixed(0)} dbar`,
        why: `only ${kept.length} of ${size} thin layers could be compared`,
      });
    } else {
      const scatter = mean((k) => standardDeviation_ppm[k]! ** 2 * memory[k]!);
      const matchError = matchError_ppm(matched, index.subarray(from, to));
      const pressure = mean((k) => pressure_dbar[k]!);
      const ownChange = mean((k) => fresh.own_ppm[k]!);
      layers.push({
        pressure_dbar: pressure,
        value_ppm: mean((k) => value_ppm[k]!),
        variance_ppm2: scatter / kept.length + matchError ** 2 + ownChange ** 2,
        upperWater: shareOfUpperWater(
          pressure,
          mean((k) => fresh.alike_ppm[k]!),
        ),
        outerHeat_ppm: mean((k) => series.outerHeat_ppm[k]!),
      });
      meanLags.push({
        own: mean((k) => series.lag_ppm[k]!),
        perTau: mean((k) => series.lagPerTau_ppm[k]!),
      });
    }
    from = to;
  }
  return { layers, meanLags, leftOut };
}

/**
 * Error of a whole layer because the legs are matched by temperature: the change of salinity with temperature in the layer
 * times `sameWater_K`. It is at most the standard deviation of salinity itself.
 */
function matchError_ppm(matched: MatchedLegs, index: Uint32Array): number {
  const { potentialTemperature_C, salinityUp, salinityDown, ppmPerSalinity } = matched;
  const temperature = deviation(index, (i) => potentialTemperature_C[i]!) ?? 0;
  const salinity = deviation(index, (i) => (salinityUp[i]! + salinityDown[i]!) / 2) ?? 0;
  const share = temperature > sameWater_K ? sameWater_K / temperature : 1;
  return share * salinity * ppmPerSalinity[index[0]!]!;
}

/** If neighbours differ by more than their variances allow, all variances are increased [Birge1932]. */
function consistent(layers: readonly LegLayer[]): readonly LegLayer[] {
  const ratios = layers.slice(1).map((layer, b) => {
    const before = layers[b]!;
    const difference = layer.value_ppm - before.value_ppm;
    return difference ** 2 / (layer.variance_ppm2 + before.variance_ppm2);
  });
  // The largest difference may be the step of a film, so it is excluded.
  const largest = Math.max(0, ...ratios);
  const sum = ratios.reduce((total, ratio) => total + ratio, 0) - largest;
  const factor = Math.max(
    1,
    (sum + ratiosBefore) / (Math.max(0, ratios.length - 1) + ratiosBefore),
  );
  return layers.map((layer) => ({ ...layer, variance_ppm2: factor * layer.variance_ppm2 }));
}

function doubleValued(count: number, { difference_ppm }: MatchedLegs): readonly LeftOut[] {
  if (count === 0) return [];
  return [
    {
      what: `${count} of ${difference_ppm.length} thin layers`,
      why: "their temperature is found with different salinities on the way down",
    },
  ];
}
