// The effect of updates and predictions on quantities that are correlated with the coefficients.

/**
 * Let the row c be the covariance of a quantity with the coefficients. Its mean moves by c . shift, its variance falls by c
 * . loss . c, and its covariance with the coefficients becomes c . kept.
 */
export interface Carry {
  readonly shift: Float64Array;
  /** Row by row, size x size. */
  readonly kept: Float64Array;
  readonly loss: Float64Array;
}

/** The identity: no updates yet. */
export function nothingYet(size: number): Carry {
  const kept = new Float64Array(size * size);
  for (let i = 0; i < size; i++) kept[i * (size + 1)] = 1;
  return { shift: new Float64Array(size), kept, loss: new Float64Array(size * size) };
}

export function copyOfCarry({ shift, kept, loss }: Carry): Carry {
  return { shift: shift.slice(), kept: kept.slice(), loss: loss.slice() };
}

/** Changes the carry in place: the coefficients were conditioned on row . x; `gain` and `total` as in `condition`. */
export function conditionCarry(
  { shift, kept, loss }: Carry,
  row: Float64Array,
  gain: Float64Array,
  innovation: number,
  total: number,
): void {
  const size = row.length;
  const along = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = 0;
    for (let j = 0; j < size; j++) sum += kept[i * size + j]! * row[j]!;
    along[i] = sum;
  }
  for (let i = 0; i < size; i++) {
    const share = along[i]! / total;
    if (share === 0) continue;
    shift[i]! += share * innovation;
    for (let j = 0; j < size; j++) {
      loss[i * size + j]! += share * along[j]!;
      kept[i * size + j]! -= share * gain[j]!;
    }
  }
}

/** Changes the carry in place: coefficient `to` becomes factor x coefficient `from`. */
export function assignCarry(
  { shift, kept }: Carry,
  to: number,
  from: number,
  factor: number,
): void {
  const size = shift.length;
  for (let k = 0; k < kept.length; k += size) kept[k + to] = factor * kept[k + from]!;
}

/** Changes the carry in place: factor x coefficient `from` is added to coefficient `to`. */
export function addCarry({ shift, kept }: Carry, to: number, from: number, factor: number): void {
  const size = shift.length;
  for (let k = 0; k < kept.length; k += size) kept[k + to]! += factor * kept[k + from]!;
}

/**
 * Changes the carry in place: the mean of a coefficient moves by `moved`, and its variance becomes `narrowed` times the old
 * one.
 * @param column regression of each coefficient on it
 */
export function learnCarry(
  { shift, kept, loss }: Carry,
  index: number,
  variance: number,
  column: Float64Array,
  moved: number,
  narrowed: number,
): void {
  const size = shift.length;
  const shares = new Float64Array(size);
  for (let i = 0; i < size; i++) shares[i] = kept[i * size + index]! / variance;
  const change = variance * (narrowed - 1);
  for (let i = 0; i < size; i++) {
    const share = shares[i]!;
    if (share === 0) continue;
    shift[i]! += share * moved;
    for (let j = 0; j < size; j++) {
      loss[i * size + j]! -= share * shares[j]! * change;
      kept[i * size + j]! += share * column[j]! * change;
    }
  }
}

/** Two carries in succession. The product of `kept` is not needed and not computed. */
export function carriedInto(first: Carry, then: Carry): Carry {
  const size = first.shift.length;
  const shift = first.shift.slice();
  const loss = first.loss.slice();
  const half = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    half.fill(0);
    for (let k = 0; k < size; k++) {
      const own = first.kept[i * size + k]!;
      if (own === 0) continue;
      shift[i]! += own * then.shift[k]!;
      for (let j = 0; j < size; j++) half[j]! += own * then.loss[k * size + j]!;
    }
    for (let j = 0; j < size; j++) {
      let sum = 0;
      for (let k = 0; k < size; k++) sum += half[k]! * first.kept[j * size + k]!;
      loss[i * size + j]! += sum;
    }
  }
  return { shift, kept: first.kept, loss };
}
