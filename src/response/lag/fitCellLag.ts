// Amplitude and time constant of the cell's thermal lag from the difference between the legs. For each time
// constant the amplitude is a straight-line fit; the time constants are weighed by how well they do, and by what
// was published of other cells [MorisonEtAl1994]. Levels of stretches of the cast are free beside, and a stretch
// with a step in it is two: a film shifts whole stretches and is not taken for lag.

import { waterScatter } from "../../evidence/legs/waterScatter.js";
import { biweight } from "../../statistics/robustRegression.js";
import {
  dividedAtSteps,
  fewest,
  type Stretches,
  squareWithin,
  stretchesOf,
  withoutLevels,
} from "./stretches.js";
import { usualLag } from "./usualLag.js";

export interface LagEstimate {
  readonly alpha: number;
  readonly tau_s: number;
  readonly standardUncertainty: { readonly alpha: number; readonly tau_s: number };
  readonly correlation: number;
  /** alpha x tau over the usual one. */
  readonly timesUsual: number;
  readonly timesUsualUncertainty: number;
  /** Uncertainty of ln tau over that before the cast was looked at. */
  readonly tauNarrowed: number;
}

/** Amplitude before the cast is looked at: cells differ, and legs may have been corrected (judgement). */
const priorAlpha = { mean: usualLag.alpha, deviation: 0.05 };
/** ln tau: published time constants go from 6.9 to 18.6 s [MorisonEtAl1994], [JohnsonEtAl2007]. */
const priorLogTau = { mean: Math.log(usualLag.tau_s), deviation: 0.4 };
const taus_s = Array.from({ length: 21 }, (_, k) => usualLag.tau_s * Math.exp((k - 10) * 0.13));
/** Stretches whose levels are free, dbar, or this share of the cast. */
const stretch_dbar = 150;
const stretchShare = 1 / 4;
/** Scatter is learnt over this, dbar, or this share of the cast. */
const reach_dbar = 40;
const reachShare = 1 / 10;
const floor_ppm = 2;
/** Where too few tell, they scatter by this, ppm: 0.01 in salinity (judgement). */
const unknown_ppm = 250;
const rounds = 4;
/** Before the last round every so many-th time constant is enough. */
const coarse = 5;
/** Between two of these that are less probable than this, the last round looks at none. */
const negligible = 1e-3;
/** Variance of the fit over that of independent scatter: found on simulated casts (tests/response). */
const fitVariance = 1.75;

/**
 * @param difference up minus down, ppm; matches in order of pressure
 * @param lagAt      what a lag of amplitude 1 and this tau would make of them, ppm
 */
export function fitCellLag(
  pressure_dbar: Float64Array,
  difference: Float64Array,
  lagAt: (tau_s: number) => Float64Array,
): LagEstimate | undefined {
  const n = difference.length;
  if (n < 2 * fewest) return undefined;
  const span = pressure_dbar[n - 1]! - pressure_dbar[0]!;
  const lags: Float64Array[] = [];
  const lagOf = (k: number) => {
    lags[k] ??= lagAt(taus_s[k]!);
    return lags[k];
  };
  const whole = stretchesOf(pressure_dbar, Math.min(stretch_dbar, stretchShare * span));
  const reach = Math.max(2, Math.round((n * Math.min(reach_dbar, reachShare * span)) / span));
  let stretches = whole;
  const trust = new Float64Array(n).fill(1);
  let best = lagOf(Math.floor(taus_s.length / 2));
  let alpha = 0;
  let posterior: readonly Weighed[] = [];
  for (let round = 0; round < rounds; round++) {
    const residual = withoutLag(difference, best, alpha);
    const { standardDeviation, memory } = waterScatter(residual, reach);
    const sd = new Float64Array(n);
    const weight = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const s = standardDeviation[i]!;
      sd[i] = Number.isFinite(s) ? Math.max(s, floor_ppm) : unknown_ppm;
      weight[i] = trust[i]! / (sd[i]! * sd[i]! * memory[i]! * fitVariance);
    }
    if (round > 0) stretches = dividedAtSteps(whole, residual, weight);
    const chosen = round < rounds - 1 ? coarsely : around(posterior);
    posterior = weighTaus(difference, chosen, lagOf, weight, stretches);
    const top = posterior.reduce((a, b) => (b.weight > a.weight ? b : a));
    best = lagOf(top.index);
    alpha = top.alpha;
    const left = withoutLevels(withoutLag(difference, best, alpha), weight, stretches);
    for (let i = 0; i < n; i++) trust[i] = biweight(left[i]! / sd[i]!);
  }
  return momentsOf(posterior);
}

const coarsely = Array.from(taus_s.keys()).filter((k) => k % coarse === 0);

/** The time constants between the probable ones and those next to them. */
function around(posterior: readonly Weighed[]): readonly number[] {
  const probable = posterior.filter(({ weight }) => weight > negligible).map(({ index }) => index);
  const [first, last] = [Math.min(...probable), Math.max(...probable)];
  return Array.from(taus_s.keys()).filter((k) => k > first - coarse && k < last + coarse);
}

function withoutLag(difference: Float64Array, lag: Float64Array, alpha: number): Float64Array {
  const rest = new Float64Array(difference.length);
  for (let i = 0; i < rest.length; i++) rest[i] = difference[i]! - alpha * lag[i]!;
  return rest;
}

interface Weighed {
  readonly index: number;
  readonly alpha: number;
  readonly variance: number;
  readonly weight: number;
}

/** The amplitude at each tau, and how probable the tau is, summing to 1. */
function weighTaus(
  difference: Float64Array,
  chosen: readonly number[],
  lagOf: (index: number) => Float64Array,
  weight: Float64Array,
  stretches: Stretches,
): readonly Weighed[] {
  const priorWeight = priorAlpha.deviation ** -2;
  const own = withoutLevels(difference, weight, stretches);
  for (let i = 0; i < own.length; i++) own[i]! *= weight[i]!;
  const logs: number[] = [];
  const fits = chosen.map((index) => {
    const lag = lagOf(index);
    const square = priorWeight + squareWithin(lag, weight, stretches);
    // Less its levels or not, the lag goes with the difference less its own by as much.
    let product = priorWeight * priorAlpha.mean;
    for (let i = 0; i < lag.length; i++) product += own[i]! * lag[i]!;
    const z = (Math.log(taus_s[index]!) - priorLogTau.mean) / priorLogTau.deviation;
    logs.push((product * product) / square / 2 - Math.log(square) / 2 - (z * z) / 2);
    return { index, alpha: product / square, variance: 1 / square };
  });
  const most = Math.max(...logs);
  const total = logs.reduce((sum, l) => sum + Math.exp(l - most), 0);
  return fits.map((fit, k) => ({ ...fit, weight: Math.exp(logs[k]! - most) / total }));
}

function momentsOf(posterior: readonly Weighed[]): LagEstimate {
  const mean = (value: (w: Weighed, tau: number) => number) =>
    posterior.reduce((sum, w) => sum + w.weight * value(w, taus_s[w.index]!), 0);
  const alpha = mean((w) => w.alpha);
  const tau = mean((_, t) => t);
  const times = mean((w, t) => w.alpha * t);
  const alphaVariance = mean((w) => w.variance + (w.alpha - alpha) ** 2);
  const tauVariance = mean((_, t) => (t - tau) ** 2);
  const logTau = mean((_, t) => Math.log(t));
  const timesVariance = mean((w, t) => w.variance * t * t + (w.alpha * t - times) ** 2);
  const usual = usualLag.alpha * usualLag.tau_s;
  return {
    alpha,
    tau_s: tau,
    standardUncertainty: { alpha: Math.sqrt(alphaVariance), tau_s: Math.sqrt(tauVariance) },
    correlation:
      mean((w, t) => (w.alpha - alpha) * (t - tau)) / Math.sqrt(alphaVariance * tauVariance),
    timesUsual: times / usual,
    timesUsualUncertainty: Math.sqrt(timesVariance) / usual,
    tauNarrowed: Math.sqrt(mean((_, t) => (Math.log(t) - logTau) ** 2)) / priorLogTau.deviation,
  };
}
