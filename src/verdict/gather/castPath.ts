// The time in the water, from the start of the down leg to the end of the up leg, and the greatest depth of a cast.
import type { Cast } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import type { CastPath } from "../../model/placesOnCast.js";

/** By definition. */
const secondsPerDay = 86_400;

/** @returns undefined unless the cast has both legs */
export function castPath({ columns }: Cast, { clock, down, up }: Legs): CastPath | undefined {
  const [first, last] = [down[0], up.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  const days = (clock.seconds[last]! - clock.seconds[first]!) / secondsPerDay;
  const deepest = columns.pressure_dbar[down.at(-1)!]!;
  return days > 0 && deepest > 0 ? { days, deepest_dbar: deepest } : undefined;
}
