// Conditions for reporting a step within a cast; the same for the legs alone and with the pair.

/**
 * Prior standard deviation of a step's size, ppm: 0.012 in salinity at 35 (judgement: relevant films are between a tenth
 * and three times of this).
 */
export const priorStep_ppm = 300;
/**
 * A step is reported only if it explains the cast this many times better than no step: "decisive" is 100 [KassRaftery1995].
 * Ten times that is required, because the scatter is estimated from the same cast (judgement).
 */
export const leastBayesFactor = 1000;
/**
 * Smaller steps are not reported, ppm (0.0006 in salinity at 35): cell, thermometer and pressure gauge together do not
 * repeat better than a few ppm from leg to leg (judgement).
 */
export const leastStep_ppm = 15;
/** Upper limit for the probability of the leg of a step (judgement: something else may have happened). */
export const mostLegProbability = 0.98;
