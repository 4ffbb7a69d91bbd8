// Cross-spectra of temperature and conductivity, window by window. First differences are taken beforehand, because the
// spectra of the sea are steep and would leak [GreggHess1985].
import { fourierTransform } from "./fourierTransform.js";

/** One value for each frequency in each column; frequency k is k / (length x interval). */
export interface WindowSpectrum {
  /** Power of the differences of temperature and of conductivity. */
  readonly temperature: Float64Array;
  readonly conductivity: Float64Array;
  /** conj(temperature) x conductivity: its angle is minus the remaining delay of conductivity, as a phase. */
  readonly crossReal: Float64Array;
  readonly crossImaginary: Float64Array;
}

/**
 * The spectra of windows of one length; windows with a missing reading are skipped.
 * The window of conductivity is shifted by the known delay. Otherwise the ends of the window weight different water in the
 * two columns, and the estimated delay is too small.
 * @param starts first scan of each window
 * @param length of the windows, a power of two
 * @param later  delay of conductivity, scans
 */
export function crossSpectra(
  temperature: Float64Array,
  conductivity: Float64Array,
  starts: readonly number[],
  length: number,
  later: number,
): readonly WindowSpectrum[] {
  const whole = Math.round(later);
  const tapers = { temperature: taper(length, 0), conductivity: taper(length, later - whole) };
  return starts
    .map((start) => crossSpectrum(temperature, conductivity, start, start + whole, tapers))
    .filter((spectrum) => spectrum !== undefined);
}

function crossSpectrum(
  temperature: Float64Array,
  conductivity: Float64Array,
  start: number,
  laidAt: number,
  tapers: { readonly temperature: Float64Array; readonly conductivity: Float64Array },
): WindowSpectrum | undefined {
  const { length } = tapers.temperature;
  const real = new Float64Array(length);
  const imaginary = new Float64Array(length);
  let present = 0;
  for (let n = 0; n + 1 < length; n++) {
    // Both columns go through one transform, as real and imaginary part.
    const [i, j] = [start + n, laidAt + n];
    real[n] = tapers.temperature[n]! * (temperature[i + 1]! - temperature[i]!);
    imaginary[n] = tapers.conductivity[n]! * (conductivity[j + 1]! - conductivity[j]!);
    present += real[n]! + imaginary[n]!;
  }
  if (!Number.isFinite(present)) return undefined;
  fourierTransform(real, imaginary);
  const half = length / 2;
  const spectrum = {
    temperature: new Float64Array(half),
    conductivity: new Float64Array(half),
    crossReal: new Float64Array(half),
    crossImaginary: new Float64Array(half),
  };
  for (let k = 1; k < half; k++) {
    const tr = (real[k]! + real[length - k]!) / 2;
    const ti = (imaginary[k]! - imaginary[length - k]!) / 2;
    const cr = (imaginary[k]! + imaginary[length - k]!) / 2;
    const ci = (real[length - k]! - real[k]!) / 2;
    spectrum.temperature[k] = tr * tr + ti * ti;
    spectrum.conductivity[k] = cr * cr + ci * ci;
    spectrum.crossReal[k] = tr * cr + ti * ci;
    spectrum.crossImaginary[k] = tr * ci - ti * cr;
  }
  return spectrum;
}

/** Von Hann's taper, from the first difference of a window to its last, for a window shifted by `later` scans. */
function taper(length: number, later: number): Float64Array {
  const found = new Float64Array(length);
  for (let n = 0; n + 1 < length; n++) {
    const x = (n - later + 0.5) / (length - 1);
    found[n] = x <= 0 || x >= 1 ? 0 : 0.5 - 0.5 * Math.cos(2 * Math.PI * x);
  }
  return found;
}
