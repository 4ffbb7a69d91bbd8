// A reference table for the deep water of a cruise: salinity at potential temperature.

export interface DeepReference {
  /** Degree C, referred to 0 dbar; one value for each row, in any order. */
  readonly potentialTemperature_C: Float64Array;
  /** PSS-78. */
  readonly salinity: Float64Array;
  /** Standard uncertainty by row, PSS-78; NaN if the row has none of its own. */
  readonly rowUncertainty: Float64Array;
  /** Standard uncertainty of the table as a whole, PSS-78: an error that all casts share. */
  readonly standardUncertainty: number;
  /** Standard deviation of the change of the water from one cast to the next, PSS-78; none if absent. */
  readonly walk?: number;
}
