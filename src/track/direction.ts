// A direction in which an error or a new coefficient moves the state, stored without its zeros.

/** The change of the coefficients by one standard deviation of an error. */
export interface Direction {
  readonly slots: readonly number[];
  readonly changes: readonly number[];
  readonly notPositive?: boolean;
}

export function directionAlong(vector: Float64Array, length = 1): Direction {
  const slots = [...vector.keys()].filter((slot) => vector[slot] !== 0);
  return { slots, changes: slots.map((slot) => length * vector[slot]!) };
}

/** The scalar product with a vector. */
export function product({ slots, changes }: Direction, vector: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < slots.length; i++) sum += changes[i]! * vector[slots[i]!]!;
  return sum;
}
