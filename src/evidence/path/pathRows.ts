// Readings of a cell laid along the path of the package, down and up again, each with what else than a film may
// be in it. A reading that compares two places of the path, as the legs do, has both.

/** One value a row in each column. */
export interface PathRows {
  /** ppm. */
  readonly value_ppm: Float64Array;
  /** 1 / variance, ppm^-2, so that sums count independent values; 0 leaves a row out. */
  readonly weight: Float64Array;
  /** Where on the path the cell was when it read what counts for it, dbar. */
  readonly at_dbar: Float64Array;
  /** Where it read what is taken off; absent where a row is one reading only. */
  readonly less_dbar?: Float64Array;
  /** What else may be in the rows: columns whose factors are normal about 0. */
  readonly background: readonly BackgroundColumn[];
  /** What one or the other water on the way up would add; absent where the water drops out. */
  readonly otherWater?: readonly (readonly BackgroundColumn[])[];
}

export interface BackgroundColumn {
  readonly column: Float64Array;
  /** Of its factor, before the cast is looked at; the unit makes the column one of ppm. */
  readonly standardDeviation: number;
}
