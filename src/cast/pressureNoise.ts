// The decrease of pressure from one scan to the next that noise alone can cause.
import { madScale } from "../statistics/madScale.js";

/** Number of standard deviations that count as noise. */
const allowance = 3;
/** Upper limit of gauge noise, dbar: a noisier gauge would not be used. */
const most_dbar = 0.2;
/** Noise is taken from about this many scans, evenly spaced. */
const sample = 5000;

/**
 * From second differences, on which the motion of the package has little effect at full rate.
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
