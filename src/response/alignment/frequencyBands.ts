// Frequency bands in which conductivity follows temperature, with their weights. The bands end where noise or variations of
// salinity destroy the coherence.
import type { WindowSpectrum } from "./crossSpectra.js";
import type { Phases } from "./phases.js";

export interface Band {
  /** Indices of the frequencies, `to` not included. */
  readonly from: number;
  readonly to: number;
  /** Weight of the cross-spectrum: coherence / (1 - coherence) / its size [KnappCarter1976]. */
  readonly weight: number;
  /** Mean size of the cross-spectrum in the band. */
  readonly power: number;
}

/** Each band ends at this many times its beginning, and has at least this many frequencies (judgement). */
const ratio = 1.3;
const leastFrequencies = 3;
/** Lowest frequency used, Hz: below it thermal lag and salinity distort the angle (judgement). */
const lowest_Hz = 0.1;
/** The taper mixes this many of the lowest frequencies (von Hann's main lobe is two wide on either side: mathematics). */
const smeared = 3;
/** Ignore a coherence that noise alone reaches with this probability (judgement). */
const chance = 1e-3;
/** Bounds the weight coherence / (1 - coherence) (judgement). */
const mostCoherent = 0.999;

/**
 * @param trust   weight of each window
 * @param omega   angular frequencies, 1/s
 * @param turn    rotation that removes the known delay from the angles
 */
export function frequencyBands(
  spectra: readonly WindowSpectrum[],
  trust: Float64Array,
  omega: Float64Array,
  turn: Phases,
): readonly Band[] {
  const bands: Band[] = [];
  const lowest = omega.findIndex((w) => w >= 2 * Math.PI * lowest_Hz);
  if (lowest < 0) return bands;
  const windows = effectiveWindows(trust);
  for (let from = Math.max(smeared, lowest); from + leastFrequencies <= omega.length; ) {
    const to = Math.min(omega.length, Math.max(from + leastFrequencies, Math.ceil(ratio * from)));
    const { coherence, power } = coherenceOf(spectra, trust, turn, from, to);
    const samples = Math.max(2, (windows * (to - from)) / 2);
    const byChance = 1 - chance ** (1 / (samples - 1));
    if (coherence > byChance) {
      const own = Math.min(mostCoherent, (coherence - 1 / samples) / (1 - 1 / samples));
      bands.push({ from, to, weight: own / (1 - own) / power, power });
    } else if (bands.length > 0) break;
    from = to;
  }
  return bands;
}

function effectiveWindows(trust: Float64Array): number {
  let sum = 0;
  let squares = 0;
  for (const t of trust) {
    sum += t;
    squares += t * t;
  }
  return (sum * sum) / squares;
}

/** Magnitude-squared coherence without the known delay; 0 if conductivity is anticorrelated with temperature. */
function coherenceOf(
  spectra: readonly WindowSpectrum[],
  trust: Float64Array,
  turn: Phases,
  from: number,
  to: number,
) {
  let real = 0;
  let imaginary = 0;
  let temperatures = 0;
  let conductivities = 0;
  for (const [w, spectrum] of spectra.entries()) {
    for (let k = from; k < to; k++) {
      const c = turn.cosine[k]!;
      const s = turn.sine[k]!;
      const { crossReal, crossImaginary } = spectrum;
      real += trust[w]! * (crossReal[k]! * c - crossImaginary[k]! * s);
      imaginary += trust[w]! * (crossReal[k]! * s + crossImaginary[k]! * c);
      temperatures += trust[w]! * spectrum.temperature[k]!;
      conductivities += trust[w]! * spectrum.conductivity[k]!;
    }
  }
  const size = Math.hypot(real, imaginary);
  const coherence = real > 0 ? (size * size) / (temperatures * conductivities) : 0;
  return { coherence, power: size / (to - from) };
}
