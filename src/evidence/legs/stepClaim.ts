// What a step within a cast must show before it is claimed; the same for the legs alone and with the pair.

/**
 * Standard deviation of a step's size before the cast is looked at, ppm: 0.012 in salinity at 35 (judgement: films worth
 * looking for are between a tenth and three times of this).
 */
export const priorStep_ppm = 300;
/**
 * A step is claimed only where it explains the cast this many times better than none: "decisive" is 100
 * [KassRaftery1995]. Ten times that is required, because the scatter is learnt from the same cast (judgement).
 */
export const againstNothing = 1000;
/**
 * Smaller steps are not claimed, ppm (0.0006 in salinity at 35): cell, thermometer and pressure gauge together do not
 * repeat better than a few ppm from leg to leg (judgement).
 */
export const leastStep_ppm = 15;
/** The leg of a step is never held for more probable than this (judgement: something else may have happened). */
export const mostCertain = 0.98;
