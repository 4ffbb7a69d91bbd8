// Amplitude and time constant of the cell's thermal lag from the difference between the legs. For each time constant the
// amplitude is a linear fit; time constants are weighted by likelihood and prior. The levels of stretches of the cast are
// free parameters, and a stretch with a step counts as two. So a film, which shifts whole stretches, is not fitted as lag.
import { biweight } from "../../statistics/robustRegression.js";
import { ambiguousBeyond } from "../match/matchLegs.js";
import { waterScatter } from "../match/waterScatter.js";
import { type LagEstimate, momentsOfLag, type WeighedLag } from "./lagMoments.js";
import { priorLogTau, priorTimesUsual, publishedLag } from "./lagPrior.js";
import {
  dividedAtSteps,
  fewest,
  type Segments,
  segmentsOf,
  sumOfSquaresWithin,
  withoutLevels,
} from "./segments.js";

const priorAlpha = { mean: publishedLag.alpha, deviation: priorTimesUsual * publishedLag.alpha };
/** From 2.6 to 35 s in even steps of ln tau, a third of its prior standard deviation each (judgement). */
const taus_s = Array.from({ length: 21 }, (_, k) => publishedLag.tau_s * Math.exp((k - 10) * 0.13));
const usualTau = 10;
/**
 * Stretches whose levels are free, dbar, or this share of the cast (judgement: long enough that the thermocline's lag
 * changes within one).
 */
const stretch_dbar = 150;
const stretchShare = 1 / 4;
/**
 * Scatter is estimated over this, dbar, or this share of the cast (judgement: longer than internal waves' small scales).
 */
const reach_dbar = 40;
const reachShare = 1 / 10;
/** Rounds in which scatter, weights and steps are refined with the lag of the round before (judgement). */
const rounds = 4;
/** Before the last round every fifth time constant is enough (speed). */
const coarse = 5;
/** The last round skips time constants between two that are less probable than this (speed). */
const negligible = 1e-3;
/** Variance of the fit over that of independent scatter: found on simulated casts (tests/response/thermalLag.slow.test.ts). */
const fitVariance = 2;

interface LegDifferences {
  /** In order of pressure, dbar. */
  readonly pressure_dbar: Float64Array;
  /** Up minus down, ppm. */
  readonly difference_ppm: Float64Array;
  /** Range of salinity among the places of one temperature, ppm. */
  readonly ambiguity_ppm: Float64Array;
}

/**
 * @param lagAt up minus down for a lag of amplitude 1 and this time constant at each difference, ppm
 * @returns the prior if there is too little to fit
 */
export function fitCellLag(
  { pressure_dbar, difference_ppm: difference, ambiguity_ppm }: LegDifferences,
  lagAt: (tau_s: number) => Float64Array,
): LagEstimate {
  const n = difference.length;
  const span = n > 0 ? pressure_dbar[n - 1]! - pressure_dbar[0]! : 0;
  if (n < 2 * fewest || !(span > 0)) return momentsOfLag(priorLags());
  const lags: Float64Array[] = [];
  const lagOf = (k: number) => {
    lags[k] ??= lagAt(taus_s[k]!);
    return lags[k];
  };
  const whole = segmentsOf(pressure_dbar, Math.min(stretch_dbar, stretchShare * span));
  const reach = Math.max(2, Math.round((n * Math.min(reach_dbar, reachShare * span)) / span));
  let stretches = whole;
  const trust = new Float64Array(n).fill(1);
  let best = lagOf(usualTau);
  let alpha = 0;
  let posterior: readonly WeighedLag[] = [];
  for (let round = 0; round < rounds; round++) {
    const residual = withoutLag(difference, best, alpha);
    const { standardDeviation, memory } = waterScatter(residual, reach);
    const weight = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const sd = standardDeviation[i]!;
      const clear = ambiguity_ppm[i]! <= ambiguousBeyond * sd ? trust[i]! : 0;
      weight[i] = clear / (sd * sd * memory[i]! * fitVariance);
    }
    if (round > 0) stretches = dividedAtSteps(whole, residual, weight);
    const chosen = round < rounds - 1 ? coarsely : around(posterior);
    posterior = weighTaus(difference, chosen, lagOf, weight, stretches);
    const top = posterior.reduce((a, b) => (b.weight > a.weight ? b : a));
    best = lagOf(taus_s.indexOf(top.tau_s));
    alpha = top.alpha;
    const left = withoutLevels(withoutLag(difference, best, alpha), weight, stretches);
    for (let i = 0; i < n; i++) trust[i] = biweight(left[i]! / standardDeviation[i]!);
  }
  return momentsOfLag(posterior);
}

const coarsely = Array.from(taus_s.keys()).filter((k) => k % coarse === 0);

/** The time constants between the probable ones and those next to them. */
function around(posterior: readonly WeighedLag[]): readonly number[] {
  const probable = posterior
    .filter(({ weight }) => weight > negligible)
    .map(({ tau_s }) => taus_s.indexOf(tau_s));
  const [first, last] = [Math.min(...probable), Math.max(...probable)];
  return Array.from(taus_s.keys()).filter((k) => k > first - coarse && k < last + coarse);
}

function withoutLag(difference: Float64Array, lag: Float64Array, alpha: number): Float64Array {
  const rest = new Float64Array(difference.length);
  for (let i = 0; i < rest.length; i++) rest[i] = difference[i]! - alpha * lag[i]!;
  return rest;
}

/** The amplitude at each tau, and the probability of that tau; the probabilities sum to 1. */
function weighTaus(
  difference: Float64Array,
  chosen: readonly number[],
  lagOf: (index: number) => Float64Array,
  weight: Float64Array,
  stretches: Segments,
): readonly WeighedLag[] {
  const own = withoutLevels(difference, weight, stretches);
  for (let i = 0; i < own.length; i++) own[i]! *= weight[i]!;
  return normalised(
    chosen.map((index) => {
      const lag = lagOf(index);
      // The levels need not be subtracted from the lag, because `own` is already without those of the difference.
      let product = 0;
      for (let i = 0; i < lag.length; i++) product += own[i]! * lag[i]!;
      return lagAtTau(taus_s[index]!, product, sumOfSquaresWithin(lag, weight, stretches));
    }),
  );
}

/** The normal posterior of alpha at one tau, with the logarithm of its weight. */
function lagAtTau(tau_s: number, product: number, square: number): WeighedLag {
  const priorPrecision = priorAlpha.deviation ** -2;
  const precision = priorPrecision + square;
  const right = priorPrecision * priorAlpha.mean + product;
  const z = Math.log(tau_s / publishedLag.tau_s) / priorLogTau;
  const log = right ** 2 / precision / 2 - Math.log(precision) / 2 - z ** 2 / 2;
  return { tau_s, alpha: right / precision, variance: 1 / precision, weight: log };
}

function normalised(logs: readonly WeighedLag[]): readonly WeighedLag[] {
  const most = Math.max(...logs.map(({ weight }) => weight));
  const weights = logs.map((own) => Math.exp(own.weight - most));
  const total = weights.reduce((sum, w) => sum + w, 0);
  return logs.map((own, k) => ({ ...own, weight: weights[k]! / total }));
}

function priorLags(): readonly WeighedLag[] {
  return normalised(taus_s.map((tau_s) => lagAtTau(tau_s, 0, 0)));
}
