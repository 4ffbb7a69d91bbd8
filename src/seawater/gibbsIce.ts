import {
  g0,
  r1,
  r2,
  s0,
  TRIPLE_POINT_PRESSURE,
  TRIPLE_POINT_TEMPERATURE,
  t1,
  t2,
} from "./coefficientsGibbsIce.js";
import { PASCAL_PER_DECIBAR, ZERO_CELSIUS } from "./constants.js";

type Complex = readonly [real: number, imaginary: number];

/**
 * Specific Gibbs energy of ice Ih, J/kg.
 * @param t  temperature, degree C
 * @param p  sea pressure, dbar
 * Source: [IAPWS2006].
 */
export function gibbsIce(t: number, p: number): number {
  const tau = (ZERO_CELSIUS + t) / TRIPLE_POINT_TEMPERATURE;
  const pi = (p * PASCAL_PER_DECIBAR) / TRIPLE_POINT_PRESSURE;
  const [g00, g01, g02, g03, g04] = g0;
  return (
    g00 +
    pi * (g01 + pi * (g02 + pi * (g03 + pi * g04))) +
    TRIPLE_POINT_TEMPERATURE * (-s0 * tau + term(t1, r1, tau) + term(t2, r2AtPressure(pi), tau))
  );
}

/**
 * Specific entropy of ice Ih, J/(kg K); arguments and source as `gibbsIce`.
 */
export function entropyIce(t: number, p: number): number {
  const tau = (ZERO_CELSIUS + t) / TRIPLE_POINT_TEMPERATURE;
  const pi = (p * PASCAL_PER_DECIBAR) / TRIPLE_POINT_PRESSURE;
  return s0 - termSlope(t1, r1, tau) - termSlope(t2, r2AtPressure(pi), tau);
}

function r2AtPressure(pi: number): Complex {
  const [r20, r21, r22] = r2;
  return [r20[0] + pi * (r21[0] + pi * r22[0]), r20[1] + pi * (r21[1] + pi * r22[1])];
}

/** Re r [(t - tau) ln(t - tau) + (t + tau) ln(t + tau) - 2 t ln t - tau^2 / t]. */
function term(t: Complex, r: Complex, tau: number): number {
  const minus = timesLogarithm([t[0] - tau, t[1]]);
  const plus = timesLogarithm([t[0] + tau, t[1]]);
  const twice = timesLogarithm(t);
  const squared = (tau * tau) / (t[0] * t[0] + t[1] * t[1]);
  return realProduct(r, [
    minus[0] + plus[0] - 2 * twice[0] - squared * t[0],
    minus[1] + plus[1] - 2 * twice[1] + squared * t[1],
  ]);
}

/** Its derivative with tau: Re r [-ln(t - tau) + ln(t + tau) - 2 tau / t]. */
function termSlope(t: Complex, r: Complex, tau: number): number {
  const minus = logarithm([t[0] - tau, t[1]]);
  const plus = logarithm([t[0] + tau, t[1]]);
  const double = (2 * tau) / (t[0] * t[0] + t[1] * t[1]);
  return realProduct(r, [plus[0] - minus[0] - double * t[0], plus[1] - minus[1] + double * t[1]]);
}

function logarithm([real, imaginary]: Complex): Complex {
  return [Math.log(Math.hypot(real, imaginary)), Math.atan2(imaginary, real)];
}

function timesLogarithm(z: Complex): Complex {
  const [real, imaginary] = logarithm(z);
  return [z[0] * real - z[1] * imaginary, z[0] * imaginary + z[1] * real];
}

function realProduct(a: Complex, b: Complex): number {
  return a[0] * b[0] - a[1] * b[1];
}
