import { runKernel } from "./columns/kernel.js";
import { pt0Kernel } from "./columns/temperatureKernels.js";
import { ZERO_CELSIUS } from "./constants.js";
import { firstPt0 } from "./firstPt0.js";
import { entropyPart, surfaceHeatCapacity } from "./gibbsSeawater.js";
import { outputFor } from "./outputFor.js";

/**
 * Potential temperature referred to the sea surface.
 * @param sa  Absolute Salinity, g/kg
 * @param t   in-situ temperature, ITS-90 degree C
 * @param p   sea pressure, dbar
 * @returns   the temperature of the parcel brought to 0 dbar at constant entropy and salinity, degree C; NaN where
 *            an input is NaN or the salinity is negative
 * Source: [TEOS10], entropy of [IAPWS2008] and [IAPWS2009].
 * @example pt0FromT(34.7118, 28.7856, 10) // 28.783196819670632
 */
export function pt0FromT(sa: number, t: number, p: number): number {
  return temperatureOfEntropy(sa, entropyPart(sa, t, p), firstPt0(sa, t, p), 0);
}

/**
 * `pt0FromT` of a whole column; `out` may be one of the inputs.
 * @throws RangeError if the columns differ in length
 */
export function pt0FromTColumn(
  sa: Float64Array,
  t: Float64Array,
  p: Float64Array,
  out?: Float64Array,
): Float64Array {
  const pt0 = outputFor(out, sa, t, p);
  const kernel = pt0Kernel();
  if (kernel !== undefined) runKernel(kernel, [sa, t, p], pt0);
  else for (let i = 0; i < pt0.length; i++) pt0[i] = pt0FromT(sa[i]!, t[i]!, p[i]!);
  return pt0;
}

/**
 * Potential temperature referred to any pressure.
 * @param sa    Absolute Salinity, g/kg
 * @param t     in-situ temperature, ITS-90 degree C
 * @param p     sea pressure, dbar
 * @param pRef  sea pressure to which the parcel is brought, dbar
 * @returns     its temperature there, degree C
 * Source: [TEOS10], entropy of [IAPWS2008] and [IAPWS2009].
 * @example ptFromT(34.7118, 28.7856, 10, 0) // 28.783196819670632
 */
export function ptFromT(sa: number, t: number, p: number, pRef: number): number {
  const near = t + firstPt0(sa, t, p) - firstPt0(sa, t, pRef);
  return temperatureOfEntropy(sa, entropyPart(sa, t, p), near, pRef);
}

/**
 * Newton's method on the entropy at pressure p. The slope cp/T is taken at 0 dbar. For p = 0 it is exact, and the step
 * after one of 1e-6 K would be below rounding. At 10,000 dbar it is up to 8 % off, and each step is smaller by that factor.
 */
function temperatureOfEntropy(sa: number, entropy: number, near: number, p: number): number {
  const settled = p === 0 ? 1e-6 : 1e-12;
  let pt = near;
  for (let step = 0; step < 12; step++) {
    const difference = entropy - entropyPart(sa, pt, p);
    const change = ((ZERO_CELSIUS + pt) / surfaceHeatCapacity(sa, pt)) * difference;
    pt += change;
    if (Math.abs(change) <= settled) break;
  }
  return pt;
}
