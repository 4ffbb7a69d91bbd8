// Amplitude and time constant of the cell's thermal lag from the difference between the legs. For each time
// constant the amplitude is a straight-line fit; the time constants are weighed by how well they do, and by what
// was published of other cells [MorisonEtAl1994]. Levels of stretches of the cast are free beside, and a stretch
// with a step in it is two: a film shifts whole stretches and is not taken for lag.

import { waterScatter } from "../evidence/waterScatter.js";
import { biweight } from "../statistics/robustRegression.js";
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
/** A step counts where it makes the sum of squares, in variances, so much less. */
const stepGain = 30;
/** Fewer matches on either side of a step, or in a stretch, say nothing. */
const fewest = 8;
const rounds = 4;
/** Before the last round every so many-th time constant is enough. */
const coarse = 5;
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
  const starts = stretchStarts(pressure_dbar, Math.min(stretch_dbar, stretchShare * span));
  const reach = Math.max(2, Math.round((n * Math.min(reach_dbar, reachShare * span)) / span));
  let bounds = starts;
  let trust = new Float64Array(n).fill(1);
  let best = lagOf(Math.floor(taus_s.length / 2));
  let alpha = 0;
  let posterior: readonly Weighed[] = [];
  for (let round = 0; round < rounds; round++) {
    const residual = difference.map((d, i) => d - alpha * best[i]!);
    const { standardDeviation, memory } = waterScatter(residual, reach);
    const sd = standardDeviation.map((s) =>
      Number.isFinite(s) ? Math.max(s, floor_ppm) : unknown_ppm,
    );
    const weight = sd.map((s, i) => trust[i]! / (s * s * memory[i]! * fitVariance));
    if (round > 0) bounds = withSteps(starts, residual, weight);
    const chosen = taus_s.flatMap((_, k) =>
      k % (round < rounds - 1 ? coarse : 1) === 0 ? [k] : [],
    );
    posterior = weighTaus(difference, chosen, lagOf, weight, bounds);
    const top = posterior.reduce((a, b) => (b.weight > a.weight ? b : a));
    best = lagOf(top.index);
    alpha = top.alpha;
    trust = trustOf(difference, best, alpha, sd, weight, bounds);
  }
  return momentsOf(posterior);
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
  bounds: readonly number[],
): readonly Weighed[] {
  const priorWeight = priorAlpha.deviation ** -2;
  const logs: number[] = [];
  const fits = chosen.map((index) => {
    const lag = lagOf(index);
    let square = priorWeight;
    let product = priorWeight * priorAlpha.mean;
    eachStretch(bounds, difference.length, (from, to) => {
      const mean = meansOf([lag, difference], weight, from, to);
      for (let i = from; i < to; i++) {
        const away = lag[i]! - mean[0]!;
        square += weight[i]! * away * away;
        product += weight[i]! * away * (difference[i]! - mean[1]!);
      }
    });
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

function stretchStarts(pressure: Float64Array, stretch: number): readonly number[] {
  const starts = [0];
  for (let i = 1; i < pressure.length; i++) {
    if (pressure[i]! - pressure[starts.at(-1)!]! >= stretch && pressure.length - i >= fewest)
      starts.push(i);
  }
  return starts;
}

/** Each stretch that is two levels rather than one is divided where that helps most. */
function withSteps(
  starts: readonly number[],
  residual: Float64Array,
  weight: Float64Array,
): readonly number[] {
  const found: number[] = [];
  eachStretch(starts, residual.length, (from, to) => {
    found.push(from);
    let [total, sum] = [0, 0];
    for (let i = from; i < to; i++) {
      total += weight[i]!;
      sum += weight[i]! * residual[i]!;
    }
    let best = { at: 0, gain: stepGain };
    let [above, sumAbove] = [0, 0];
    for (let i = from; i < to - fewest; i++) {
      above += weight[i]!;
      sumAbove += weight[i]! * residual[i]!;
      if (i - from + 1 < fewest || above === 0 || above === total) continue;
      const gain = (sumAbove - (above * sum) / total) ** 2 / (above * (1 - above / total));
      if (gain > best.gain) best = { at: i + 1, gain };
    }
    if (best.at > 0) found.push(best.at);
  });
  return found;
}

function trustOf(
  difference: Float64Array,
  lag: Float64Array,
  alpha: number,
  sd: Float64Array,
  weight: Float64Array,
  bounds: readonly number[],
): Float64Array<ArrayBuffer> {
  const trust = new Float64Array(difference.length);
  eachStretch(bounds, difference.length, (from, to) => {
    const mean = meansOf([lag, difference], weight, from, to);
    for (let i = from; i < to; i++) {
      const residual = difference[i]! - mean[1]! - alpha * (lag[i]! - mean[0]!);
      trust[i] = biweight(residual / sd[i]!);
    }
  });
  return trust;
}

function meansOf(
  columns: readonly Float64Array[],
  weight: Float64Array,
  from: number,
  to: number,
): readonly number[] {
  let total = 0;
  for (let i = from; i < to; i++) total += weight[i]!;
  return columns.map((column) => {
    let sum = 0;
    for (let i = from; i < to; i++) sum += weight[i]! * column[i]!;
    return total > 0 ? sum / total : 0;
  });
}

function eachStretch(
  bounds: readonly number[],
  n: number,
  visit: (from: number, to: number) => void,
): void {
  for (const [b, from] of bounds.entries()) visit(from, bounds[b + 1] ?? n);
}
