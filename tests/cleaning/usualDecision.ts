// What decisions in tests and proofs start from.
import type { BeliefComponent, Circumstances } from "../../src/cleaning/decision/decide.js";
import { defaultLadder } from "../../src/cleaning/ladder/intensities.js";
import { defaultRecovery } from "../../src/model/recovery.js";

/** A clean gain that is known to be right, and a film that does not grow. */
export const still = {
  cleanMean_ppm: 0,
  cleanVariance: 0,
  covariance: 0,
  growthMean_ppm: 0,
  growthVariance: 0,
} as const satisfies Partial<BeliefComponent>;

/** The default ladder and recovery, for a target of 0.002 in salinity. */
export function usualCircumstances(target_ppm: number): Circumstances {
  return {
    cell: "primary",
    target: 0.002,
    target_ppm,
    instrument: {},
    ladder: defaultLadder,
    recovery: defaultRecovery,
  };
}
