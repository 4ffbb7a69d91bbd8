import { C3515, c as cc, d, e, k } from "./coefficientsPss78.js";
import { runKernel } from "./columns/kernel.js";
import { salinityKernel } from "./columns/salinityKernel.js";
import { salinityBelowTwo } from "./lowSalinity.js";
import { outputFor } from "./outputFor.js";
import { pss78 } from "./pss78.js";
import { T68_PER_T90 } from "./temperatureScales.js";

// Constants of this module, so that the compiler writes their values into the code.
const [c0, c1, c2, c3, c4] = cc;
const [d1, d2, d3, d4] = d;
const [e1, e2, e3] = e;
const kTemperature = k;
const perC3515 = 1 / C3515;
const t68PerT90 = T68_PER_T90;

/**
 * Practical Salinity from conductivity.
 * @param c   conductivity, mS/cm
 * @param t   in-situ temperature, ITS-90 degree C
 * @param p   sea pressure, dbar
 * @returns   Practical Salinity, PSS-78 (no unit); NaN if an input is NaN or the conductivity is negative
 * The scale is defined for 2 to 42, -2 to 35 degree C and 0 to 10,000 dbar; outside (see `inPss78Range`) the same formula
 * is evaluated. Below 2 it is the extension of [HillEtAl1986] in the form of [TEOS10]. For less than 0.0007 mS/cm (at -2
 * degree C) to 0.0024 mS/cm (at 35) the extension is slightly below zero, and 0 is returned.
 * At the definition point it is 7.6e-8 below 35, because the published c0 to c4 are rounded.
 * Source: [UNESCO1983], [Lewis1980].
 * @example spFromC(42.914, t90FromT68(15), 0) // 34.9999999
 */
export function spFromC(c: number, t: number, p: number): number {
  const t68 = t * t68PerT90;
  const dt = t68 - 15;
  const ft = dt / (1 + kTemperature * dt);
  const ratio = c * perC3515;
  const rpDivisor = 1 + t68 * (d1 + t68 * d2) + (d3 + t68 * d4) * ratio;
  const rt = c0 + t68 * (c1 + t68 * (c2 + t68 * (c3 + t68 * c4)));
  const rtRp = rt * (rpDivisor + p * (e1 + p * (e2 + p * e3)));
  return salinityOfRatio((ratio * rpDivisor) / rtRp, ft);
}

/**
 * `spFromC` of a whole column; `out` may be one of the inputs.
 * @throws RangeError if the columns differ in length
 */
export function spFromCColumn(
  c: Float64Array,
  t: Float64Array,
  p: Float64Array,
  out?: Float64Array,
): Float64Array {
  const sp = outputFor(out, c, t, p);
  const kernel = salinityKernel();
  if (kernel === undefined) fillSpFromC(c, t, p, sp, sp.length);
  else
    runKernel(kernel, [c, t, p], sp, (rows, least) => {
      const [chunkC, chunkT, chunkP] = kernel.inputs;
      if (least < 2) fillSpFromC(chunkC!, chunkT!, chunkP!, kernel.output, rows);
    });
  return sp;
}

function fillSpFromC(
  c: Float64Array,
  t: Float64Array,
  p: Float64Array,
  sp: Float64Array,
  rows: number,
): void {
  for (let i = 0; i < rows; i++) sp[i] = spFromC(c[i]!, t[i]!, p[i]!);
}

/** Practical Salinity from the conductivity ratio Rt and the temperature factor ft = (t68 - 15) / (1 + k (t68 - 15)). */
export function salinityOfRatio(rt: number, ft: number): number {
  const x = Math.sqrt(rt);
  const sp = pss78(rt, x, ft);
  return sp < 2 ? salinityBelowTwo(sp, x, ft) : sp;
}
