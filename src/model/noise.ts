// Process noise: how much things change by themselves from cast to cast. Usual values first, then estimated from the cruise.
import type { NoiseParameter, SharedError } from "./sharedError.js";

/** Standard deviations. */
export interface Noise {
  /** Change of the clean gain, ppm per square root of a day. */
  readonly clean: number;
  /** Change of a film from cast to cast, ppm. */
  readonly film: number;
  /** Of each shared error that is redrawn, by its name, in its unit. */
  readonly errors: Readonly<Record<string, number>>;
}

/** Well-kept cells move by 0.0001 in salinity a month [JAMSTECRecords]: 0.5 ppm per square root of a day. */
export const cleanNoise: NoiseParameter = { usual: 0.5, logSd: 0.4 };
/** What a rinse leaves in a cell differs by some ppm from cast to cast (judgement). */
export const filmNoise: NoiseParameter = { usual: 2 };

/** Before any cast. */
export function usualNoise(errors: readonly SharedError[]): Noise {
  return {
    clean: cleanNoise.usual,
    film: filmNoise.usual,
    errors: Object.fromEntries(errors.map(({ name, noise }) => [name, noise?.usual ?? 0])),
  };
}
