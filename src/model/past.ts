// What was, kept while the coefficients move on: a fixed-point smoother.

/**
 * Quantities that were functions of the coefficients once and are kept while the coefficients move on: what is
 * learnt later is learnt of them too, through their covariance with the coefficients of now. So the filter, run
 * once, ends with the smoothed values of every cast: a fixed-point smoother [AndersonMoore1979].
 */
export interface Past {
  readonly mean: Float64Array;
  readonly variance: Float64Array;
  /** Of each with each coefficient, row by row, count x size. */
  readonly cross: Float64Array;
  /**
   * Shares of one that are no functions of the coefficients: what was held to have happened. Only the weights of the
   * hypotheses that remember them move them.
   */
  readonly shares: Float64Array;
}

/** What `condition` does to the past; `gain` and `total` as there. */
export function conditionPast(
  { mean, variance, cross }: Past,
  row: Float64Array,
  gain: Float64Array,
  innovation: number,
  total: number,
): void {
  const size = row.length;
  for (let k = 0; k < mean.length; k++) {
    let along = 0;
    for (let j = 0; j < size; j++) along += cross[k * size + j]! * row[j]!;
    if (along === 0) continue;
    const share = along / total;
    mean[k]! += share * innovation;
    variance[k]! -= share * along;
    for (let j = 0; j < size; j++) cross[k * size + j]! -= share * gain[j]!;
  }
}
