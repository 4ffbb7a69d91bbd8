// What was, kept while the coefficients move on: a fixed-point smoother.

/**
 * Quantities that were functions of the coefficients once and are kept while the coefficients move on: what is
 * learnt later is learnt of them too, through their covariance with the coefficients of now. So the filter, run
 * once, ends with the smoothed values of every cast: a fixed-point smoother [AndersonMoore1979].
 */
export interface Past {
  readonly mean: Float64Array;
  /** Quantities are kept in blocks of so many, those of one cell on one cast. */
  readonly block: number;
  /** Of each with each of its own block, row by row, count x block. */
  readonly covariance: Float64Array;
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
  { mean, block, covariance, cross }: Past,
  row: Float64Array,
  gain: Float64Array,
  innovation: number,
  total: number,
): void {
  const size = row.length;
  const along = new Float64Array(block);
  for (let first = 0; first < mean.length; first += block) {
    for (let b = 0; b < block; b++) {
      let sum = 0;
      const from = (first + b) * size;
      for (let j = 0; j < size; j++) sum += cross[from + j]! * row[j]!;
      along[b] = sum;
    }
    for (let b = 0; b < block; b++) {
      const share = along[b]! / total;
      if (share === 0) continue;
      const k = first + b;
      mean[k]! += share * innovation;
      for (let j = 0; j < block; j++) covariance[k * block + j]! -= share * along[j]!;
      for (let j = 0; j < size; j++) cross[k * size + j]! -= share * gain[j]!;
    }
  }
}
