// The covariance of a state as independent errors, and those of them that are the same under several hypotheses.
import type { Gaussian } from "../model/gaussian.js";
import type { Direction } from "./direction.js";

/** A smaller correlation, or share of a variance, is a rounding error (judgement). */
const negligible = 1e-12;

/** Independent errors that have the covariance of a Gaussian (its Cholesky factor, by columns). */
export function errorsOf({ mean, covariance }: Gaussian): readonly Direction[] {
  const size = mean.length;
  const rest = covariance.slice();
  const errors: Direction[] = [];
  for (let k = 0; k < size; k++) {
    const variance = rest[k * (size + 1)]!;
    if (!(variance > negligible * covariance[k * (size + 1)]!)) continue;
    const slots: number[] = [];
    const changes: number[] = [];
    for (let a = k; a < size; a++) {
      const change = rest[k * size + a]! / Math.sqrt(variance);
      if (change ** 2 > negligible ** 2 * covariance[a * (size + 1)]!) {
        slots.push(a);
        changes.push(change);
      }
    }
    for (let i = 0; i < slots.length; i++) {
      for (let j = i; j < slots.length; j++)
        rest[slots[i]! * size + slots[j]!]! -= changes[i]! * changes[j]!;
    }
    errors.push({ slots, changes });
  }
  return errors;
}

/** Those of the first errors that occur in all, alone in their slots. */
export function commonErrors(all: readonly (readonly Direction[])[]): readonly Direction[] {
  return all[0]!.filter(({ slots: [slot], changes: [sd] }) =>
    all.every((errors) => {
      const own = errors.flatMap(({ slots, changes }) => (slots.includes(slot!) ? changes : []));
      return own.length === 1 && Math.abs(own[0]! - sd!) <= negligible * sd!;
    }),
  );
}
