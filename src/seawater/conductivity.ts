import { C3515, c as cc, d, e, k } from "./coefficientsPss78.js";
import { hillCorrection, hillCorrectionDx, hillRatioAtTwo } from "./lowSalinity.js";
import { outputFor } from "./outputFor.js";
import { pss78, pss78Dx } from "./pss78.js";
import { T68_PER_T90 } from "./temperatureScales.js";

const [c0, c1, c2, c3, c4] = cc;
const [d1, d2, d3, d4] = d;
const [e1, e2, e3] = e;

/**
 * Conductivity from Practical Salinity: the inverse of `spFromC`.
 * @param sp  Practical Salinity, PSS-78
 * @param t   in-situ temperature, ITS-90 degree C
 * @param p   sea pressure, dbar
 * @returns   conductivity, mS/cm; NaN if an input is NaN or the salinity is negative
 * Salinity 0 gives 0.0007 to 0.0024 mS/cm, because the extension below 2 passes through 0 there.
 * Source: inverted from [UNESCO1983] and, below 2, [HillEtAl1986] in the form of [TEOS10].
 * @example cFromSp(35, 15, 0) // 42.9175
 */
export function cFromSp(sp: number, t: number, p: number): number {
  const t68 = t * T68_PER_T90;
  const ft = (t68 - 15) / (1 + k * (t68 - 15));
  const x = sp < 2 ? rootBelowTwo(sp, ft) : root(sp, ft);

  // ratio / (1 + pressure / (divisor + slope ratio)) = rt x^2, a quadratic in the ratio; its positive solution.
  const rt = c0 + t68 * (c1 + t68 * (c2 + t68 * (c3 + t68 * c4)));
  const surface = rt * x * x;
  const divisor = 1 + t68 * (d1 + t68 * d2);
  const slope = d3 + t68 * d4;
  const pressure = p * (e1 + p * (e2 + p * e3));
  const half = divisor - slope * surface;
  const product = surface * (divisor + pressure);
  return (C3515 * 2 * product) / (half + Math.sqrt(half * half + 4 * slope * product));
}

/**
 * `cFromSp` of a whole column; `out` may be one of the inputs.
 * @throws RangeError if the columns differ in length
 */
export function cFromSpColumn(
  sp: Float64Array,
  t: Float64Array,
  p: Float64Array,
  out?: Float64Array,
): Float64Array {
  const c = outputFor(out, sp, t, p);
  for (let i = 0; i < c.length; i++) c[i] = cFromSp(sp[i]!, t[i]!, p[i]!);
  return c;
}

/** The square root of Rt that has this salinity at 15 degree C, within 0.005: a cubic in sqrt(SP) fitted to PSS-78. */
function firstRoot(sp: number): number {
  const s = Math.sqrt(sp);
  return 0.01129 + s * (0.18567 + s * (-0.003534 + s * 6.657e-5));
}

/** The square root of Rt, by Newton: after three steps from 0.005 the error is below double precision. */
function root(sp: number, ft: number): number {
  let x = firstRoot(sp);
  for (let step = 0; step < 3; step++) x -= (pss78(x * x, x, ft) - sp) / pss78Dx(x, ft);
  return x;
}

/** The same below 2, where the first root is less accurate because the curve starts steeply. */
function rootBelowTwo(sp: number, ft: number): number {
  const raw = sp / hillRatioAtTwo(ft);
  let x = firstRoot(sp);
  for (let step = 0; step < 6; step++)
    x -=
      (pss78(x * x, x, ft) - hillCorrection(x, ft) - raw) /
      (pss78Dx(x, ft) - hillCorrectionDx(x, ft));
  return x;
}
