// From which size on a cause is named, and how well a cell of good calibration reads: what several causes share.

/** Half of the accuracy of 0.002 in salinity that WOCE asks for, ppm [McTaggartEtAl2010]. */
export const leastFilm_ppm = 25;
/** All of it, ppm [McTaggartEtAl2010]. */
export const leastCleanGain_ppm = 51;
/** All of it at 2500 dbar, ppm per 1000 dbar (derived). */
export const leastPressureResponse = 20;
/** All of it: 1 mK is worth 0.001 in salinity [McTaggartEtAl2010]. */
export const leastThermometer_mK = 2;

/**
 * A fresh calibration is within 0.0014 in salinity, 35 ppm: laboratories hold the accuracy of 0.002 that WOCE asks for
 * [McTaggartEtAl2010], and two healthy cells still differ by 0.003 now and then [CalCOFI2016] (judgement between the two).
 */
export const goodClean_ppm = 35;
/**
 * Sound cells answer to pressure by up to about 1e-6 mS/cm per dbar, which is 30 ppm per 1000 dbar; most by much less
 * [CruiseReports2021].
 */
const goodPressure_ppm_per_1000dbar = 8;

/**
 * The thermometer beside a cell, mK: each is to hold 2 mK [McTaggartEtAl2010], and most hold a fifth of it (judgement). 1 mK
 * is worth 25 ppm of conductivity, so no bottle tells the gain of a cell better than its thermometer is known.
 */
const goodThermometer_mK = 0.35;

/** How a cell of good calibration begins, beside what a cause adds. */
export const goodBeginning = {
  cleanSd: goodClean_ppm,
  pressureSd: goodPressure_ppm_per_1000dbar,
  thermometerSd: goodThermometer_mK,
} as const;
