// How much things wander by themselves: the noise of the model, usual values first, then learnt from the cruise.

/** Standard deviations. */
export interface Noise {
  /** The clean gain's wander, ppm per square root of a day. */
  readonly clean: number;
  /** What a film changes by from cast to cast and from leg to leg, ppm. */
  readonly film: number;
  /** The standardisation error of one laboratory run, ppm. */
  readonly run: number;
  /** The wander of one pair of sensors against the other from cast to cast, beside that of the thermometers, ppm. */
  readonly pairWander: number;
  /** The wander of one thermometer against the other from cast to cast, mK. */
  readonly thermometers: number;
}

/**
 * Well-kept cells move by 0.0001 in salinity a month [JAMSTECRecords]; what a rinse leaves in a cell is some ppm
 * (judgement), and so does what is left of a pair's wander; runs share 0.0003 in salinity, 8 ppm [KawanoEtAl2006]; thermometers stay within 0.3 mK of each other
 * on a published cruise of 117 stations, which is worth 8 ppm of the pair [CruiseReports2022].
 */
export const usualNoise: Noise = {
  clean: 0.5,
  film: 3,
  run: 8,
  pairWander: 5,
  thermometers: 0.25,
};
