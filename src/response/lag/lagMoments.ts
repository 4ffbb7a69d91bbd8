// The thermal lag as a mean with uncertainties, from the amplitudes at a series of time constants.
import { priorLogTau, publishedLag } from "./lagPrior.js";

export interface LagEstimate {
  /** Amplitude, no unit, and time constant. */
  readonly alpha: number;
  readonly tau_s: number;
  readonly standardUncertainty: { readonly alpha: number; readonly tau_s: number };
  /** Correlation of the errors of alpha and of tau; 0 if either is certain. */
  readonly correlation: number;
  /** alpha x tau relative to the usual cell: the size of the lag effect in a steady gradient. */
  readonly timesUsual: number;
  readonly timesUsualUncertainty: number;
  /** Uncertainty of ln tau relative to that of its prior. */
  readonly tauNarrowed: number;
}

/** One time constant with the amplitude, its variance, and its probability; weights sum to 1. */
export interface WeighedLag {
  readonly tau_s: number;
  readonly alpha: number;
  readonly variance: number;
  readonly weight: number;
}

export function momentsOfLag(posterior: readonly WeighedLag[]): LagEstimate {
  const mean = (value: (w: WeighedLag) => number) =>
    posterior.reduce((sum, w) => sum + w.weight * value(w), 0);
  const alpha = mean((w) => w.alpha);
  const tau_s = mean((w) => w.tau_s);
  const product = mean((w) => w.alpha * w.tau_s);
  const logTau = mean((w) => Math.log(w.tau_s));
  const sd = (variance: number) => Math.sqrt(Math.max(0, variance));
  const ofAlpha = sd(mean((w) => w.variance + (w.alpha - alpha) ** 2));
  const ofTau = sd(mean((w) => (w.tau_s - tau_s) ** 2));
  const ofProduct = sd(mean((w) => w.variance * w.tau_s ** 2 + (w.alpha * w.tau_s - product) ** 2));
  const usual = publishedLag.alpha * publishedLag.tau_s;
  return {
    alpha,
    tau_s,
    standardUncertainty: { alpha: ofAlpha, tau_s: ofTau },
    correlation: mean((w) => (w.alpha - alpha) * (w.tau_s - tau_s)) / (ofAlpha * ofTau) || 0,
    timesUsual: product / usual,
    timesUsualUncertainty: ofProduct / usual,
    tauNarrowed: sd(mean((w) => (Math.log(w.tau_s) - logTau) ** 2)) / priorLogTau,
  };
}
