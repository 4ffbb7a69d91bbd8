import { k } from "./coefficientsPss78.js";
import { outputFor } from "./outputFor.js";
import { salinityOfRatio } from "./practicalSalinity.js";
import { T68_PER_T90 } from "./temperatureScales.js";

/**
 * Practical Salinity from a laboratory salinometer.
 * @param rt  conductivity of the sample against that of standard seawater (SP 35) at the same bath temperature
 *            and atmospheric pressure; half of a reading that shows the double ratio
 * @param t   bath temperature, ITS-90 degree C
 * @returns   Practical Salinity, PSS-78; NaN if an input is NaN or the ratio is negative
 * Below 2, and outside the scale, as `spFromC`.
 * Source: [UNESCO1983], [HillEtAl1986], [TEOS10].
 * @example spSalinometer(1, 24) // 35
 */
export function spSalinometer(rt: number, t: number): number {
  const dt = t * T68_PER_T90 - 15;
  return salinityOfRatio(rt, dt / (1 + k * dt));
}

/** `spSalinometer` of a whole column; `out` may be one of the inputs. */
export function spSalinometerColumn(
  rt: Float64Array,
  t: Float64Array,
  out?: Float64Array,
): Float64Array {
  const sp = outputFor(out, rt, t);
  for (let i = 0; i < sp.length; i++) sp[i] = spSalinometer(rt[i]!, t[i]!);
  return sp;
}
