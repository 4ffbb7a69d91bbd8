// Readings of a cell in order along the path of the package, down and up. Each row lists the terms other than a film that it may
// contain. A row that is a difference between two places, as for the legs, has both places.

/** One value for each row in each column. */
export interface PathRows {
  /** Unit: ppm. */
  readonly value_ppm: Float64Array;
  /** 1 / variance, ppm^-2, so that sums count independent values; 0 excludes a row. */
  readonly weight: Float64Array;
  /** Place on the path of the reading that counts positively, dbar. */
  readonly at_dbar: Float64Array;
  /** Place of the reading that is subtracted; absent if a row is a single reading. */
  readonly less_dbar?: Float64Array;
  /** Other terms in the rows: columns whose factors are normal about 0. */
  readonly background: readonly BackgroundColumn[];
  /** The effect of different waters on the up leg; absent if the water cancels. */
  readonly otherWater?: readonly (readonly BackgroundColumn[])[];
}

export interface BackgroundColumn {
  readonly column: Float64Array;
  /** Prior standard deviation of its factor; the unit makes the column one of ppm. */
  readonly standardDeviation: number;
}
