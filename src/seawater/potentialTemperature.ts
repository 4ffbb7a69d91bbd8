import { ZERO_CELSIUS } from "./constants.js";
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
 * @throws RangeError where the columns differ in length
 */
export function pt0FromTColumn(
  sa: Float64Array,
  t: Float64Array,
  p: Float64Array,
  out?: Float64Array,
): Float64Array {
  const pt0 = outputFor(out, sa, t, p);
  for (let i = 0; i < pt0.length; i++) pt0[i] = pt0FromT(sa[i]!, t[i]!, p[i]!);
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
 * Newton on the entropy at pressure p. The slope cp/T is taken at 0 dbar, where it is exact for p = 0, and up to
 * 8 % off at 10,000 dbar; steps go on until they vanish.
 */
function temperatureOfEntropy(sa: number, entropy: number, near: number, p: number): number {
  let pt = near;
  for (let step = 0; step < 12; step++) {
    const difference =
      ((ZERO_CELSIUS + pt) / surfaceHeatCapacity(sa, pt)) * (entropy - entropyPart(sa, pt, p));
    pt += difference;
    if (!(Math.abs(difference) > 1e-6 || (p !== 0 && Math.abs(difference) > 1e-12))) break;
  }
  return pt;
}

/**
 * Potential temperature within 0.01 K: a polynomial in SA / 40, t / 40 and p / 10^4, our own least-squares fit to
 * `pt0FromT` for SA 0 to 45, t -3 to 40 and p 0 to 11,500.
 */
export function firstPt0(sa: number, t: number, p: number): number {
  const s = sa / 40;
  const y = t / 40;
  const z = p / 1e4;
  return (
    t +
    z *
      (0.43424 +
        y * (-4.1892 + y * (1.1248 - y * 0.2308)) +
        s * (-0.96973 + y * (1.1555 - y * 0.34293 - s * 0.18166) + s * 0.10031) +
        z *
          (-1.2252 +
            y * (1.3785 - y * 0.29978) +
            s * (0.3036 - y * 0.18506 + s * 0.0096568) +
            z * (0.27168 - y * 0.18582 - s * 0.062682 - z * 0.021767)))
  );
}
