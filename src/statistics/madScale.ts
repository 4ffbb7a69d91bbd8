// The median absolute deviation, scaled to the standard deviation of a normal distribution
// [RousseeuwCroux1993]: half of the values may be wild before it fails.
import { median, medianDeviation } from "./robustCentre.js";

/** 1 / the 0.75 quantile of the standard normal distribution. */
export const toNormal = 1.4826;

/**
 * @param values NaN where missing
 * @param centre what the deviations are taken from; the median of the values where absent
 * @param count  how many of the values, from the first, are used
 * @returns a standard deviation in the unit of the values, NaN where there is no value
 */
export function madScale(
  values: ArrayLike<number>,
  centre: number = median(values),
  count = values.length,
): number {
  return toNormal * medianDeviation(values, centre, count);
}
