// Weight of each matched difference between the legs.
import { median } from "../../statistics/robustCentre.js";
import { lagShapeShare, learntVariance, neighbours, spike } from "./legNoise.js";
import type { LegSeries } from "./legSeries.js";

/** 1 / (variance x correlation length), ppm^-2, so that sums count independent values; 0 for spikes. */
export function legWeights(series: LegSeries, timesUsual: number): Float64Array {
  const { difference_ppm, lag_ppm, standardDeviation_ppm, memory } = series;
  const weights = new Float64Array(difference_ppm.length);
  for (let k = 0; k < weights.length; k++) {
    const from = Math.max(0, k - neighbours);
    const around = median(difference_ppm.subarray(from, k + neighbours + 1));
    const scale = standardDeviation_ppm[k]!;
    if (Math.abs(difference_ppm[k]! - around) > spike * scale) continue;
    const misshapen = lagShapeShare * timesUsual * lag_ppm[k]!;
    weights[k] = 1 / ((scale ** 2 + misshapen ** 2) * memory[k]! * learntVariance);
  }
  return weights;
}
