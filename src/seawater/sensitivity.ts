import { C3515, c as cc, d, e, k } from "./coefficientsPss78.js";
import {
  hillCorrection,
  hillCorrectionDft,
  hillCorrectionDx,
  hillRatioAtTwo,
  hillRatioAtTwoDft,
} from "./lowSalinity.js";
import { pss78, pss78Dft, pss78Dx } from "./pss78.js";
import { T68_PER_T90 } from "./temperatureScales.js";

const [c0, c1, c2, c3, c4] = cc;
const [d1, d2, d3, d4] = d;
const [e1, e2, e3] = e;

/** Partial derivatives of Practical Salinity: per mS/cm, per K (ITS-90) and per dbar. */
export type SalinityDerivatives = {
  readonly dSpDc: number;
  readonly dSpDt: number;
  readonly dSpDp: number;
};

/**
 * Sensitivity of Practical Salinity to conductivity, temperature and pressure: analytic derivatives of `spFromC`.
 * @param c   conductivity, mS/cm
 * @param t   in-situ temperature, ITS-90 degree C
 * @param p   sea pressure, dbar
 * @returns   dSP/dC per mS/cm, dSP/dt per K, dSP/dp per dbar; NaN if an input is NaN or the conductivity is negative; 0
 *   where `spFromC` is held at 0
 * At SP 2 the scale has a kink (its value is continuous, its slope is not): each side has its own slope.
 * Source: differentiated from [UNESCO1983] and, below 2, [HillEtAl1986] in the form of [TEOS10].
 * @example spFromCFirstDerivatives(42.9175, 15, 0).dSpDc // 0.9124
 */
export function spFromCFirstDerivatives(c: number, t: number, p: number): SalinityDerivatives {
  const t68 = t * T68_PER_T90;
  const ratio = c / C3515;

  const rt = c0 + t68 * (c1 + t68 * (c2 + t68 * (c3 + t68 * c4)));
  const rtDt = c1 + t68 * (2 * c2 + t68 * (3 * c3 + t68 * 4 * c4));
  const pressure = p * (e1 + p * (e2 + p * e3));
  const pressureDp = e1 + p * (2 * e2 + p * 3 * e3);
  const divisor = 1 + t68 * (d1 + t68 * d2) + (d3 + t68 * d4) * ratio;
  const divisorDratio = d3 + t68 * d4;
  const divisorDt = d1 + 2 * t68 * d2 + d4 * ratio;
  const rp = 1 + pressure / divisor;
  const rpDdivisor = -pressure / (divisor * divisor);

  // Relative derivatives of Rt = ratio / (rt Rp); from them those of its square root x.
  const x = Math.sqrt(ratio / (rt * rp));
  const xDc = (x / 2) * (1 / ratio - (rpDdivisor * divisorDratio) / rp) * (1 / C3515);
  const xDt = (x / 2) * (-rtDt / rt - (rpDdivisor * divisorDt) / rp) * T68_PER_T90;
  const xDp = (x / 2) * (-pressureDp / (divisor * rp));

  const ftDivisor = 1 + k * (t68 - 15);
  const ft = (t68 - 15) / ftDivisor;
  const ftDt = T68_PER_T90 / (ftDivisor * ftDivisor);

  const { dx, dft } = salinityDerivatives(x, ft);
  return { dSpDc: dx * xDc, dSpDt: dx * xDt + dft * ftDt, dSpDp: dx * xDp };
}

/** Derivatives of `salinityOfRatio` with the root of Rt and with the temperature factor. */
function salinityDerivatives(x: number, ft: number): { dx: number; dft: number } {
  const sp = pss78(x * x, x, ft);
  const dx = pss78Dx(x, ft);
  const dft = pss78Dft(x);
  if (!(sp < 2)) return { dx, dft };
  const raw = sp - hillCorrection(x, ft);
  if (raw <= 0) return { dx: 0, dft: 0 };
  const ratio = hillRatioAtTwo(ft);
  return {
    dx: (dx - hillCorrectionDx(x, ft)) * ratio,
    dft: (dft - hillCorrectionDft(x)) * ratio + raw * hillRatioAtTwoDft(ft),
  };
}
