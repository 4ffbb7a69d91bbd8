// How far noise alone makes a pressure reading fall short of the one before.
import { madScale } from "../statistics/madScale.js";

/** Standard deviations of noise that pass for noise. */
const allowance = 3;
/** A gauge that is noisier than this would not be used, dbar. */
const most_dbar = 0.2;
/** Noise is taken from about this many scans, evenly spread. */
const sample = 5000;

/**
 * From second differences, which the package's own motion hardly touches at full rate.
 * @param pressure dbar
 * @returns an allowance for noise, dbar
 */
export function pressureNoise(pressure: Float64Array): number {
  const stride = Math.max(1, Math.floor(pressure.length / sample));
  const second: number[] = [];
  for (let i = 1; i + 1 < pressure.length; i += stride) {
    second.push(pressure[i + 1]! - 2 * pressure[i]! + pressure[i - 1]!);
  }
  // The second difference of white noise has six times its variance.
  const noise = madScale(second, 0) / Math.sqrt(6);
  return noise > 0 ? Math.min(most_dbar, allowance * noise) : 0;
}
