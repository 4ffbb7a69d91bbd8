// Delay between two signals, from the angle of their cross-spectrum: generalised correlation with maximum-likelihood
// weights [KnappCarter1976]. Salinity and damping change the size of the cross-spectrum, so only its angle is used.
import { madScale } from "../../statistics/madScale.js";
import { biweight } from "../../statistics/robustRegression.js";
import type { WindowSpectrum } from "./crossSpectra.js";
import { fourierTransform } from "./fourierTransform.js";
import { type Band, frequencyBands } from "./frequencyBands.js";
import { type Phases, phasesOf } from "./phases.js";

export interface Delay {
  readonly seconds: number;
  readonly standardUncertainty: number;
  /** The additional delay, s, for a column of angles (one for each frequency). */
  readonly ofPhase: (phase: (frequency_Hz: number) => number) => number;
}

/** Longest delay searched, s, and as a share of the window (judgement). */
const furthest_s = 2;
const furthestShare = 1 / 8;
/** Rounds in which weights and delay are refined (judgement). */
const rounds = 4;
/**
 * The variance is that of the windows times this factor: windows overlap, and excluding strays makes their scatter too
 * small. The factor was found on simulated casts (tests/response/alignment.slow.test.ts).
 */
const windowVariance = 2.5;
/** Fewer windows than this do not show their scatter (judgement). */
const leastWindows = 4;

/**
 * @param interval_s between scans
 * @param about      first guess, s; searched if absent
 */
export function delayFromSpectra(
  spectra: readonly WindowSpectrum[],
  interval_s: number,
  about?: number,
): Delay | undefined {
  const half = spectra[0]?.temperature.length ?? 0;
  if (spectra.length < leastWindows) return undefined;
  const omega = Float64Array.from({ length: half }, (_, k) => (Math.PI * k) / (half * interval_s));
  let seconds =
    about ??
    roughDelay(spectra, interval_s, Math.min(furthest_s, 2 * half * interval_s * furthestShare));
  let trust: Float64Array = new Float64Array(spectra.length).fill(1);
  let found: ReturnType<typeof oneRound> | undefined;
  let bands: readonly Band[] = [];
  for (let round = 0; round < rounds; round++) {
    const turn = phasesOf(omega, seconds);
    bands = frequencyBands(spectra, trust, omega, turn);
    if (bands.length === 0) return undefined;
    found = oneRound(spectra, trust, omega, bands, turn, seconds);
    if (found === undefined) return undefined;
    seconds = found.seconds;
    trust = found.trust;
  }
  const hertz = (k: number) => omega[k]! / (2 * Math.PI);
  return {
    seconds,
    standardUncertainty: found!.standardUncertainty,
    ofPhase: (phase) => {
      let sum = 0;
      let total = 0;
      for (const { from, to, weight, power } of bands) {
        for (let k = from; k < to; k++) {
          sum -= weight * power * omega[k]! * phase(hertz(k));
          total += weight * power * omega[k]! ** 2;
        }
      }
      return sum / total;
    },
  };
}

/**
 * The delay with the largest plain correlation of the differences, to half a scan. The correlation is the transform of the
 * cross-spectrum, padded to four times its length.
 * @param interval_s between scans
 */
function roughDelay(spectra: readonly WindowSpectrum[], interval_s: number, furthest_s: number) {
  const half = spectra[0]!.temperature.length;
  // Twice as many values as scans: half a scan apart (judgement: fine enough for a first value).
  const length = 4 * half;
  const real = new Float64Array(length);
  const imaginary = new Float64Array(length);
  for (const { temperature, conductivity, crossReal, crossImaginary } of spectra) {
    let scale = 0;
    for (let k = 1; k < half; k++) scale += Math.sqrt(temperature[k]! * conductivity[k]!);
    for (let k = 1; k < half; k++) {
      real[k]! += crossReal[k]! / scale;
      imaginary[k]! -= crossImaginary[k]! / scale;
    }
  }
  fourierTransform(real, imaginary);
  const step_s = interval_s / 2;
  const steps = Math.min(length / 2 - 1, Math.floor(furthest_s / step_s));
  let best = -steps;
  const height = (lag: number) => real[lag < 0 ? length + lag : lag]!;
  for (let lag = -steps; lag <= steps; lag++) if (height(lag) > height(best)) best = lag;
  return best * step_s;
}

/** One Newton step for each window, then a robust mean of the windows. */
function oneRound(
  spectra: readonly WindowSpectrum[],
  before: Float64Array,
  omega: Float64Array,
  bands: readonly Band[],
  turn: Phases,
  seconds: number,
) {
  const information = new Float64Array(spectra.length);
  const away = new Float64Array(spectra.length);
  for (const [w, { crossReal, crossImaginary }] of spectra.entries()) {
    let slope = 0;
    for (const { from, to, weight } of bands) {
      for (let k = from; k < to; k++) {
        const c = turn.cosine[k]!;
        const s = turn.sine[k]!;
        const re = crossReal[k]! * c - crossImaginary[k]! * s;
        const im = crossReal[k]! * s + crossImaginary[k]! * c;
        information[w]! += weight * omega[k]! ** 2 * re;
        slope -= weight * omega[k]! * im;
      }
    }
    away[w] = information[w]! > 0 ? slope / information[w]! : 0;
  }
  const usable = (w: number) => information[w]! > 0;
  const mean = (trust: Float64Array) => {
    let sum = 0;
    let total = 0;
    for (let w = 0; w < trust.length; w++) {
      if (!usable(w)) continue;
      sum += trust[w]! * information[w]! * away[w]!;
      total += trust[w]! * information[w]!;
    }
    return { value: sum / total, total };
  };
  let trust = before;
  // Three rounds refine weights and mean (judgement).
  for (let i = 0; i < 3; i++) {
    const centre = mean(trust).value;
    const z = away.map((a, w) =>
      usable(w) ? (a - centre) * Math.sqrt(information[w]!) : Number.NaN,
    );
    const scale = madScale(z, 0);
    if (!(scale > 0)) break;
    trust = z.map((value) => (Number.isNaN(value) ? 0 : biweight(value / scale)));
  }
  const { value, total } = mean(trust);
  if (!(total > 0)) return undefined;
  let squares = 0;
  let effective = 0;
  for (let w = 0; w < trust.length; w++) {
    if (!usable(w)) continue;
    const share = (trust[w]! * information[w]!) / total;
    squares += (share * (away[w]! - value)) ** 2;
    effective += share * share;
  }
  // For n equal windows the scatter about their own mean is too small by 1 / n.
  // With few windows the scatter is uncertain: approximately Student's factor at 95 % (judgement for the form and for both
  // bounds).
  const few = 1 + 1.8 / Math.max(1, 1 / effective - 1);
  const variance = (few * few * windowVariance * squares) / Math.max(0.1, 1 - effective);
  return { seconds: seconds + value, standardUncertainty: Math.sqrt(variance), trust };
}
