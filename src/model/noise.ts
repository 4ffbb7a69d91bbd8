// Process noise: random changes from cast to cast. It starts with usual values and is then estimated from the cruise.
import type { NoiseParameter, SharedError } from "./sharedError.js";

/** Standard deviations. */
export interface Noise {
  /** Random walk of the clean gain, ppm per square root of a day. */
  readonly clean: number;
  /** Random change of a film from cast to cast, ppm. */
  readonly film: number;
  /** Of each shared error that is redrawn, by its name, in its unit. */
  readonly errors: Readonly<Record<string, number>>;
}

/** Well-kept cells move by 0.0001 in salinity a month [JAMSTECRecords]: 0.5 ppm per square root of a day. */
export const cleanNoise: NoiseParameter = { usual: 0.5, logSd: 0.4 };
/** What a rinse leaves in a cell varies by some ppm from cast to cast (judgement). */
export const filmNoise: NoiseParameter = { usual: 2 };

/** The noise before any cast. */
export function usualNoise(errors: readonly SharedError[]): Noise {
  return {
    clean: cleanNoise.usual,
    film: filmNoise.usual,
    errors: Object.fromEntries(errors.map(({ name, noise }) => [name, noise?.usual ?? 0])),
  };
}
