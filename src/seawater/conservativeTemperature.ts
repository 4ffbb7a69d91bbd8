import { runKernel } from "./columns/kernel.js";
import { ctKernel } from "./columns/temperatureKernels.js";
import { HEAT_CAPACITY, ZERO_CELSIUS } from "./constants.js";
import { firstPt0 } from "./firstPt0.js";
import { entropyPart, surfaceEnthalpy, surfaceHeatCapacity } from "./gibbsSeawater.js";
import { outputFor } from "./outputFor.js";
import { ptFromT } from "./potentialTemperature.js";

/**
 * Conservative Temperature from in-situ temperature.
 * @param sa  Absolute Salinity, g/kg
 * @param t   in-situ temperature, ITS-90 degree C
 * @param p   sea pressure, dbar
 * @returns   Conservative Temperature, degree C; NaN if an input is NaN or the salinity is negative
 * Potential enthalpy over 3991.86795711963 J/(kg K). The enthalpy at 0 dbar is expanded in entropy about a nearby
 * temperature, dh = T d(eta) and d2h/d(eta)2 = T/cp, so the potential temperature need not be solved for. If that
 * temperature is within 0.01 K, the expansion is good to 2e-12 K.
 * Source: [TEOS10], [McDougall2003], [IAPWS2008], [IAPWS2009].
 * @example ctFromT(34.7118, 28.7856, 10) // 28.80991982670028
 */
export function ctFromT(sa: number, t: number, p: number): number {
  const near = firstPt0(sa, t, p);
  const kelvin = ZERO_CELSIUS + near;
  const difference = entropyPart(sa, t, p) - entropyPart(sa, near, 0);
  const enthalpy =
    surfaceEnthalpy(sa, near) +
    kelvin * difference * (1 + difference / (2 * surfaceHeatCapacity(sa, near)));
  return enthalpy / HEAT_CAPACITY;
}

/**
 * `ctFromT` of a whole column; `out` may be one of the inputs.
 * @throws RangeError if the columns differ in length
 */
export function ctFromTColumn(
  sa: Float64Array,
  t: Float64Array,
  p: Float64Array,
  out?: Float64Array,
): Float64Array {
  const ct = outputFor(out, sa, t, p);
  const kernel = ctKernel();
  if (kernel !== undefined) runKernel(kernel, [sa, t, p], ct);
  else for (let i = 0; i < ct.length; i++) ct[i] = ctFromT(sa[i]!, t[i]!, p[i]!);
  return ct;
}

/**
 * Conservative Temperature from potential temperature referred to 0 dbar.
 * @param sa  Absolute Salinity, g/kg
 * @param pt  potential temperature, degree C
 * @returns   Conservative Temperature, degree C
 * Source: [TEOS10], [McDougall2003].
 * @example ctFromPt(34.7118, 28.7831968) // 28.8099198
 */
export function ctFromPt(sa: number, pt: number): number {
  return surfaceEnthalpy(sa, pt) / HEAT_CAPACITY;
}

/**
 * Potential temperature referred to 0 dbar from Conservative Temperature, by Newton's method.
 * @param sa  Absolute Salinity, g/kg
 * @param ct  Conservative Temperature, degree C
 * @returns   potential temperature, degree C
 * Source: inverted from `ctFromPt`.
 * @example ptFromCt(34.7118, 28.8099198) // 28.7831968
 */
export function ptFromCt(sa: number, ct: number): number {
  let pt = ct;
  for (let step = 0; step < 4; step++)
    pt += (HEAT_CAPACITY * ct - surfaceEnthalpy(sa, pt)) / surfaceHeatCapacity(sa, pt);
  return pt;
}

/**
 * In-situ temperature from Conservative Temperature.
 * @param sa  Absolute Salinity, g/kg
 * @param ct  Conservative Temperature, degree C
 * @param p   sea pressure, dbar
 * @returns   in-situ temperature, ITS-90 degree C
 * Source: [TEOS10].
 * @example tFromCt(34.7118, 28.8099198, 10) // 28.7856
 */
export function tFromCt(sa: number, ct: number, p: number): number {
  return ptFromT(sa, ptFromCt(sa, ct), 0, p);
}
