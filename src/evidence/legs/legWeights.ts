// How much each matched difference between the legs counts.
import { median } from "../../statistics/robustCentre.js";
import type { LegSeries } from "./legSeries.js";

/** Scatter and memory are learnt from the cast itself: variances may be this much larger (from simulated casts). */
const learnt = 1.3;
/** The lag's course is modelled to within this share of it (our judgement). */
const lagShapeShare = 0.1;
/** A value this many standard deviations from the median of its neighbours, so many on each side, is a spike. */
const spike = 3;
const neighbours = 5;

/** 1 / (variance x memory), ppm^-2, so that sums count independent values; 0 for spikes. */
export function legWeights(series: LegSeries, lagAmplitude: number): Float64Array {
  const { difference_ppm, lag_ppm, standardDeviation_ppm, memory } = series;
  const weights = new Float64Array(difference_ppm.length);
  for (let k = 0; k < weights.length; k++) {
    const from = Math.max(0, k - neighbours);
    const around = median(difference_ppm.subarray(from, k + neighbours + 1));
    const scale = standardDeviation_ppm[k]!;
    if (Math.abs(difference_ppm[k]! - around) > spike * scale) continue;
    const misshapen = lagShapeShare * lagAmplitude * lag_ppm[k]!;
    weights[k] = 1 / ((scale ** 2 + misshapen ** 2) * memory[k]! * learnt);
  }
  return weights;
}
