// The effect of updates and predictions on quantities that are correlated with the coefficients.

/**
 * Let the row c be the covariance of a quantity with the coefficients. Its mean moves by c . shift, its variance falls by c
 * . loss . c, and its covariance with the coefficients becomes c . map.
 */
export interface Transition {
  readonly shift: Float64Array;
  /** Row by row, size x size. */
  readonly map: Float64Array;
  readonly loss: Float64Array;
}

/** The identity: no updates yet. */
export function identityTransition(size: number): Transition {
  const map = new Float64Array(size * size);
  for (let i = 0; i < size; i++) map[i * (size + 1)] = 1;
  return { shift: new Float64Array(size), map, loss: new Float64Array(size * size) };
}

export function copyTransition({ shift, map, loss }: Transition): Transition {
  return { shift: shift.slice(), map: map.slice(), loss: loss.slice() };
}

/** Changes the transition in place: the coefficients were conditioned on row . x; `gain` and `total` as in `condition`. */
export function conditionTransition(
  { shift, map, loss }: Transition,
  row: Float64Array,
  gain: Float64Array,
  innovation: number,
  total: number,
): void {
  const size = row.length;
  const along = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = 0;
    for (let j = 0; j < size; j++) sum += map[i * size + j]! * row[j]!;
    along[i] = sum;
  }
  for (let i = 0; i < size; i++) {
    const share = along[i]! / total;
    if (share === 0) continue;
    shift[i]! += share * innovation;
    for (let j = 0; j < size; j++) {
      loss[i * size + j]! += share * along[j]!;
      map[i * size + j]! -= share * gain[j]!;
    }
  }
}

/** Changes the transition in place: coefficient `to` becomes factor x coefficient `from`. */
export function assignTransition(
  { shift, map }: Transition,
  to: number,
  from: number,
  factor: number,
): void {
  const size = shift.length;
  for (let k = 0; k < map.length; k += size) map[k + to] = factor * map[k + from]!;
}

/** Changes the transition in place: factor x coefficient `from` is added to coefficient `to`. */
export function addTransition(
  { shift, map }: Transition,
  to: number,
  from: number,
  factor: number,
): void {
  const size = shift.length;
  for (let k = 0; k < map.length; k += size) map[k + to]! += factor * map[k + from]!;
}

/**
 * Changes the transition in place: the mean of a coefficient moves by `moved`, and its variance becomes `narrowed` times the old
 * one.
 * @param column regression of each coefficient on it
 */
export function truncateTransition(
  { shift, map, loss }: Transition,
  index: number,
  variance: number,
  column: Float64Array,
  moved: number,
  narrowed: number,
): void {
  const size = shift.length;
  const shares = new Float64Array(size);
  for (let i = 0; i < size; i++) shares[i] = map[i * size + index]! / variance;
  const change = variance * (narrowed - 1);
  for (let i = 0; i < size; i++) {
    const share = shares[i]!;
    if (share === 0) continue;
    shift[i]! += share * moved;
    for (let j = 0; j < size; j++) {
      loss[i * size + j]! -= share * shares[j]! * change;
      map[i * size + j]! += share * column[j]! * change;
    }
  }
}

/** Two transitions in succession. The product of `map` is not needed and not computed. */
export function composeTransitions(first: Transition, then: Transition): Transition {
  const size = first.shift.length;
  const shift = first.shift.slice();
  const loss = first.loss.slice();
  const half = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    half.fill(0);
    for (let k = 0; k < size; k++) {
      const own = first.map[i * size + k]!;
      if (own === 0) continue;
      shift[i]! += own * then.shift[k]!;
      for (let j = 0; j < size; j++) half[j]! += own * then.loss[k * size + j]!;
    }
    for (let j = 0; j < size; j++) {
      let sum = 0;
      for (let k = 0; k < size; k++) sum += half[k]! * first.map[j * size + k]!;
      loss[i * size + j]! += sum;
    }
  }
  return { shift, map: first.map, loss };
}
