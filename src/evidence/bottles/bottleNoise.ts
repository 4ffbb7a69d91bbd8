// Difference of a sound bottle from a sound cell: laboratory, wake and closure mismatch. The shape is fixed here; its scale
// is estimated during the cruise.
import { madScale } from "../../statistics/madScale.js";

/**
 * Standard deviation of a laboratory salinity against a sound cell in calm deep water, PSS-78.
 * 95 % limits of 0.0016 to 0.0022 below 2000 dbar on four GO-SHIP legs of 2021 and 2022 are standard
 * deviations of 0.0008 to 0.0011 [CruiseReports2021].
 */
export const laboratorySalinity = 0.001;

/**
 * Distance between the water in the bottle and the water at the cell, dbar: standard deviation about the common value of
 * the cruise's bottles. Bottles have been found to hold water from up to about 5 m deeper after short stops
 * [Codispoti1998]; half of that as the ordinary case is our judgement.
 */
const closureMismatch_dbar = 2.5;

/**
 * The common value: on the way up the wake of the frame carries water from below. Prior mean and standard deviation, dbar,
 * positive from below; the cruise's own bottles update it (judgement, from the same).
 */
export const wakeDepth_dbar = { mean: 1, sd: 1.5 };

/** Weight of the prior scale of 1, in bottles (judgement: less than one rosette). */
const priorBottles = 10;
/** The median absolute deviation is 37 % efficient on normal errors [RousseeuwCroux1993]. */
const madEfficiency = 0.37;

/**
 * Standard deviation of one bottle's ordinary error, PSS-78, before the cruise's scale.
 * @param mismatches factor on the usual mismatch: larger for a bottle closed on the fly
 */
export function bottleStandardDeviation(salinityGradient_per_dbar: number, mismatches = 1): number {
  return Math.hypot(
    laboratorySalinity,
    salinityGradient_per_dbar * closureMismatch_dbar * mismatches,
  );
}

/**
 * A bottle closed on the fly was not flushed: it holds water from this many times the usual mismatch. Stops of two minutes
 * can be needed for a sample of the place [PaverEtAl2020]; twice the ordinary case is our judgement.
 */
export const mismatchesOnTheFly = 2;

/**
 * The same at the cruise's scale, in the unit of both. A scale estimated in gradients must not make the laboratory better
 * than laboratories are.
 */
export function atScale(sigma: number, laboratory: number, scale: number): number {
  return Math.max(laboratory, sigma * scale);
}

/**
 * A cast that scatters more than this many times the scale so far counts only as this many: its samples may be spoilt
 * (judgement).
 */
const mostOfOneCast = 2;

/** Residuals for the cruise's scale; those of a cast with far more scatter are reduced. */
export function towardsScale(standardised: readonly number[], before: number): readonly number[] {
  const own = madScale(standardised, 0);
  const most = mostOfOneCast * Math.max(1, before);
  return own > most ? standardised.map((value) => (value * most) / own) : standardised;
}

/**
 * The scatter of this cruise's bottles relative to the shape above.
 * @param standardised residuals within casts, each divided by its standard deviation and corrected for the degrees of
 *   freedom of its cast's fit; during a cruise, those so far
 * @returns 1 without residuals; it approaches their robust scale as they become numerous
 */
export function bottleNoiseScale(standardised: readonly number[]): number {
  if (standardised.length === 0) return 1;
  const seen = madEfficiency * standardised.length;
  const scale = madScale(standardised, 0);
  return Math.sqrt((priorBottles + seen * scale ** 2) / (priorBottles + seen));
}
