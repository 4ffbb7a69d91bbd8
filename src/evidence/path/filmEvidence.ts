import { priorStep_ppm } from "../legs/stepThresholds.js";

/**
 * Natural logarithm of the evidence ratio of a film of one sign against no film, before the probability of that sign is added.
 * @param ppm         its most probable size
 * @param information of the readings and the prior about its size, ppm^-2
 */
export function filmEvidence(ppm: number, information: number): number {
  return (
    Math.LN2 + 0.5 * ppm * ppm * information - 0.5 * Math.log(information * priorStep_ppm ** 2)
  );
}
