// The standard normal distribution, to about the last digits of double precision, in both tails. The distribution function
// uses the rational approximations of [Cody1969] for erf and erfc. The quantile uses those of [Wichura1988] (algorithm AS
// 241, PPND16). Checked against scipy in fixtures/normal.

import { centre, erfNearZero, far, farTail, middle, nearTail } from "./coefficientsNormal.js";

/** Density at x of the normal distribution with mean 0 and standard deviation 1. */
export function normalPdf(x: number): number {
  return Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);
}

/** Log density of a normal variable of mean zero. */
export function normalLogDensity(x: number, variance: number): number {
  return -0.5 * (Math.log(2 * Math.PI * variance) + (x * x) / variance);
}

/**
 * Probability of a value at most x.
 * @returns 0 to 1, NaN for NaN; the lower tail keeps its relative accuracy down to 1e-300
 * @example normalCdf(1.959963984540054) // 0.975
 */
export function normalCdf(x: number): number {
  return 0.5 * erfc(-x * Math.SQRT1_2);
}

/**
 * Logarithm of the probability of a value at most x, for tails whose probability underflows. Below -30 it uses the first
 * terms of the asymptotic series of Mills' ratio, 1 - 1/x^2 + 3/x^4 ([AbramowitzStegun1964], 26.2.12), with a relative
 * error of 1e-8 there.
 */
export function normalLogCdf(x: number): number {
  if (!(x < -30)) return Math.log(normalCdf(x));
  const y = 1 / (x * x);
  return -0.5 * x * x - Math.log(-x) - 0.5 * Math.log(2 * Math.PI) + Math.log1p(y * (-1 + 3 * y));
}

/**
 * The value that is exceeded with probability 1 - p.
 * @param p 0 to 1
 * @returns -Infinity at 0, Infinity at 1, NaN outside
 * @example normalQuantile(0.975) // 1.959963984540054
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return Number.NaN;
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * polynomial(centre.above, r)) / polynomial(centre.below, r);
  }
  const tail = Math.sqrt(-Math.log(Math.min(p, 1 - p)));
  if (tail === Number.POSITIVE_INFINITY) return Math.sign(q) * tail;
  const { above, below, shift } = tail <= 5 ? nearTail : farTail;
  const r = tail - shift;
  return (Math.sign(q) * polynomial(above, r)) / polynomial(below, r);
}

function erfc(x: number): number {
  const size = Math.abs(x);
  if (size <= 0.46875) {
    const y = x * x;
    return 1 - (x * polynomial(erfNearZero.above, y)) / polynomial(erfNearZero.below, y);
  }
  const upper = size <= 4 ? erfcMiddle(size) : erfcFar(size);
  return x < 0 ? 2 - upper : upper;
}

function erfcMiddle(x: number): number {
  return (exponential(x) * polynomial(middle.above, x)) / polynomial(middle.below, x);
}

function erfcFar(x: number): number {
  if (x > 27) return 0;
  const y = 1 / (x * x);
  const correction = (y * polynomial(far.above, y)) / polynomial(far.below, y);
  return (exponential(x) * (1 / Math.sqrt(Math.PI) - correction)) / x;
}

/** exp(-x^2), where x is split so that the rounding of x^2 is not magnified. */
function exponential(x: number): number {
  const coarse = Math.trunc(x * 16) / 16;
  return Math.exp(-coarse * coarse) * Math.exp(-(x - coarse) * (x + coarse));
}

/** Coefficients in order of rising power. */
function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + coefficients[i]!;
  return sum;
}
