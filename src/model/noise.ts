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

/**
 * Per square root of a day. Well-kept cells move by 0.0001 in salinity a month [JAMSTECRecords], 0.5 ppm; one cell of a published
 * cruise by 0.003 [CruiseReports2022], 14 ppm. The usual value between the two is nearer to the first (judgement).
 */
export const cleanNoise: NoiseParameter = { usual: 1.5, logSd: 0.8 };
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
