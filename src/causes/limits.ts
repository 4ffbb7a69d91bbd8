// Smallest sizes at which a cause is named, and the errors of a cell with a good calibration; several causes use them.

/** Half of the WOCE accuracy requirement of 0.002 in salinity, ppm [McTaggartEtAl2010]. */
export const leastFilm_ppm = 25;
/** The whole WOCE accuracy requirement, ppm [McTaggartEtAl2010]. */
export const leastCleanGain_ppm = 51;
/** The whole requirement at 2500 dbar, ppm per 1000 dbar (derived). */
export const leastPressureResponse = 20;
/** The whole requirement: 1 mK is worth 0.001 in salinity [McTaggartEtAl2010]. */
export const leastThermometer_mK = 2;

/**
 * A cell of good calibration is within 0.0024 in salinity, 60 ppm. Laboratories meet the WOCE accuracy of 0.002
 * [McTaggartEtAl2010], but two healthy cells commonly differ by 0.003 to 0.007 [CalCOFI2016] (judgement between the two). A
 * narrower spread would pull the estimate of a sound cell away from what its bottles say.
 */
export const goodClean_ppm = 60;
/**
 * The pressure response of sound cells is at most about 1e-6 mS/cm per dbar, which is 30 ppm per 1000 dbar; for most cells
 * it is much less [CruiseReports2021].
 */
const goodPressure_ppm_per_1000dbar = 8;

/**
 * Error of the thermometer of a cell, mK: the requirement is 2 mK [McTaggartEtAl2010], and most thermometers are within a
 * fifth of it (judgement). 1 mK is worth 25 ppm of conductivity, so a bottle cannot tell the gain of a cell better than its
 * temperature is known.
 */
const goodThermometer_mK = 0.4;

/** The initial state of a cell with a good calibration; each cause changes it. */
export const goodCalibration = {
  cleanSd: goodClean_ppm,
  pressureSd: goodPressure_ppm_per_1000dbar,
  thermometerSd: goodThermometer_mK,
} as const;
