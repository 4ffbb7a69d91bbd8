// Closure times that a log holds to the minute only, cut or rounded.
import type { Bottle } from "./bottle.js";

/**
 * The bottles whose closure time is known to a minute only: those of a cast on which every closure time ends on the whole
 * minute. Exact times do so by chance on one of 60 casts with one bottle, and on one of 216,000 casts with three. A cast
 * with one or two bottles loses little by this: they are too few to show whether a clock is right.
 * @param bottles of one cast
 */
export function timedToTheMinute<T extends Pick<Bottle, "time_s" | "closureTime">>(
  bottles: readonly T[],
): readonly T[] {
  const timed = bottles.filter(
    ({ time_s, closureTime }) => time_s === undefined && closureTime !== undefined,
  );
  return timed.every(({ closureTime }) => Date.parse(closureTime!) % 60_000 === 0) ? timed : [];
}
