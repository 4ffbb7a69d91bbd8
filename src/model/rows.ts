// What the coefficients are conditioned on.

/** Rows of weights, values and variances that the coefficients are conditioned on, one by one. */
export interface Rows {
  readonly rows: readonly Float64Array[];
  readonly values: readonly number[];
  readonly variances: readonly number[];
  /** What the log density of the whole has beside the densities of the rows. */
  readonly logConstant: number;
}
