// The data that the coefficients are conditioned on.

/** Rows of weights, values and variances; the coefficients are conditioned on them one by one. */
export interface Rows {
  readonly rows: readonly Float64Array[];
  readonly values: readonly number[];
  readonly variances: readonly number[];
  /** The log density of all observations minus that of these rows. */
  readonly logConstant: number;
}
