import { a, b } from "./coefficientsPss78.js";
import { pss78, pss78Dft, pss78Dx } from "./pss78.js";

const [a0] = a;
const [b0] = b;

/**
 * Practical Salinity below 2: the PSS-78 value minus two terms that vanish at high ratios, [HillEtAl1986]. It is scaled so
 * that it equals PSS-78 at exactly 2, as in [TEOS10]. Never below 0.
 * @param sp  the PSS-78 value of x and ft
 * @param x   square root of the conductivity ratio Rt
 * @param ft  temperature factor of PSS-78
 */
export function salinityBelowTwo(sp: number, x: number, ft: number): number {
  return Math.max(0, (sp - hillCorrection(x, ft)) * hillRatioAtTwo(ft));
}

/**
 * The terms subtracted in [HillEtAl1986]: a0 / (1 + 1.5 X + X^2) + b0 ft / (1 + Y^0.5 + Y + Y^1.5), X = 400 Rt, Y = 100 Rt.
 */
export function hillCorrection(x: number, ft: number): number {
  const x400 = 400 * x * x;
  const y = 10 * x;
  return a0 / (1 + x400 * (1.5 + x400)) + (b0 * ft) / (1 + y * (1 + y * (1 + y)));
}

/** Its derivative with the root x. */
export function hillCorrectionDx(x: number, ft: number): number {
  const x400 = 400 * x * x;
  const y = 10 * x;
  const one = 1 + x400 * (1.5 + x400);
  const two = 1 + y * (1 + y * (1 + y));
  return (
    (-a0 * (1.5 + 2 * x400) * 800 * x) / (one * one) -
    (b0 * ft * (1 + y * (2 + 3 * y)) * 10) / (two * two)
  );
}

/** Its derivative with the temperature factor. */
export function hillCorrectionDft(x: number): number {
  const y = 10 * x;
  return b0 / (1 + y * (1 + y * (1 + y)));
}

/** The scale that makes the extension 2 where PSS-78 is 2. */
export function hillRatioAtTwo(ft: number): number {
  return 2 / (2 - hillCorrection(rootAtTwo(ft), ft));
}

/** Its derivative with ft, along the ratios at which PSS-78 is 2. */
export function hillRatioAtTwoDft(ft: number): number {
  const x = rootAtTwo(ft);
  const dxDft = -pss78Dft(x) / pss78Dx(x, ft);
  const raw = 2 - hillCorrection(x, ft);
  return (2 * (hillCorrectionDft(x) + hillCorrectionDx(x, ft) * dxDft)) / (raw * raw);
}

/** The x at which PSS-78 is 2: between 0.261 and 0.267 from -2 to 35 degree C, so three Newton steps are enough. */
function rootAtTwo(ft: number): number {
  let x = 0.264;
  for (let step = 0; step < 3; step++) x -= (pss78(x * x, x, ft) - 2) / pss78Dx(x, ft);
  return x;
}
