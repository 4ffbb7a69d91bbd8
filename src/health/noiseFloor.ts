// The noise of a sensor from scan to scan, from the calmest quarter of its blocks.
import { quantile } from "../statistics/robustCentre.js";
import type { ColumnSummary } from "./columnSummary.js";

/**
 * The second difference of white noise has six times its variance; its mean size is sqrt(2 / pi) of its standard deviation:
 * mathematics.
 */
export const meanOfSecondDifference = Math.sqrt(6) * Math.sqrt(2 / Math.PI);
/**
 * Number of blocks for the quantile, evenly spaced; blocks with a single value throughout have no information on noise. The
 * quantile: judgement.
 */
const mostBlocks = 1000;
const calm = 0.25;
/**
 * The lower quartile of means of n second differences of white noise lies this / sqrt(n) below their mean (simulated,
 * no source).
 */
const quartileShort = 0.64;

/**
 * Standard deviation of white noise, in the unit of the column. If scans are seconds apart, it includes changes of the
 * water from one to the next and is then an upper limit. NaN without a complete block.
 */
export function noiseFloor({ mean, block }: ColumnSummary): number {
  const stride = Math.max(1, Math.floor(mean.length / mostBlocks));
  const sample: number[] = [];
  for (let b = 0; b < mean.length; b += stride) {
    if (mean[b]! > 0) sample.push(mean[b]!);
  }
  if (sample.length === 0) return mean.some((m) => m === 0) ? 0 : Number.NaN;
  return quantile(sample, calm) / (meanOfSecondDifference * (1 - quartileShort / Math.sqrt(block)));
}
