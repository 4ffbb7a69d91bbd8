// How temperature and conductivity go together, window by window and frequency by frequency.
// First differences are taken before, for the spectra of the sea are steep and would leak [GreggHess1985].
import { fourierTransform } from "./fourierTransform.js";

/** One value a frequency in each column; frequency k is k / (length x interval). */
export interface WindowSpectrum {
  /** Power of the differences of temperature and of conductivity. */
  readonly temperature: Float64Array;
  readonly conductivity: Float64Array;
  /** conj(temperature) x conductivity: its angle is minus how much later conductivity comes than laid over, as phase. */
  readonly crossReal: Float64Array;
  readonly crossImaginary: Float64Array;
}

/**
 * The window is laid over conductivity as much later as it comes, as near as is known: laid over both alike, the
 * water at its ends would be weighed differently in the two, and a delay would come out too small.
 * @param start  of the window, a scan
 * @param length of the window, a power of two
 * @param later  scans by which conductivity comes later
 * @returns undefined where a reading is missing
 */
export function crossSpectrum(
  temperature: Float64Array,
  conductivity: Float64Array,
  start: number,
  length: number,
  later: number,
): WindowSpectrum | undefined {
  const real = new Float64Array(length);
  const imaginary = new Float64Array(length);
  let present = 0;
  const whole = Math.round(later);
  for (let n = 0; n + 1 < length; n++) {
    const i = start + n;
    const j = i + whole;
    const late = n - (later - whole);
    // Both columns go through one transform, as real and imaginary part.
    real[n] = taper(n, length) * (temperature[i + 1]! - temperature[i]!);
    imaginary[n] = taper(late, length) * (conductivity[j + 1]! - conductivity[j]!);
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

/** Von Hann's, between the first difference of a window and its last. */
function taper(n: number, length: number): number {
  const x = (n + 0.5) / (length - 1);
  return x <= 0 || x >= 1 ? 0 : 0.5 - 0.5 * Math.cos(2 * Math.PI * x);
}
