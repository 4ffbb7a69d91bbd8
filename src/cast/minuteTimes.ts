// Closure times that a log holds to the minute only, cut or rounded.
import type { Bottle } from "./bottle.js";

/**
 * The bottles whose closure time is known to a minute only: those of a cast on which every closure time ends on the whole
 * minute. Exact times all do so by chance once in 60 casts of one bottle, and once in 216,000 casts of three. With one or
 * two bottles little is lost then: so few do not decide whether a clock is right.
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
