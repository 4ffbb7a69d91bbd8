// The median absolute deviation, scaled to the standard deviation of a normal distribution [RousseeuwCroux1993]. It
// tolerates outliers in up to half of the values.
import { median, medianDeviation } from "./robustCentre.js";

/** 1 / the 0.75 quantile of the standard normal distribution. */
export const toNormal = 1.4826;

/** On normal errors the median absolute deviation is 37 % efficient [RousseeuwCroux1993]. */
export const madEfficiency = 0.37;

/**
 * @param values NaN if missing
 * @param centre origin of the deviations; the median of the values if absent
 * @param count  number of values to use, from the first
 * @returns a standard deviation in the unit of the values, NaN without values
 */
export function madScale(
  values: ArrayLike<number>,
  centre: number = median(values),
  count = values.length,
): number {
  return toNormal * medianDeviation(values, centre, count);
}
