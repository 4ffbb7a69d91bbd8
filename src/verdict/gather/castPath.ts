// How long a cast was in the water from the start of its down leg to the end of its up leg, and how deep it went.
import type { Cast } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import type { CastPath } from "../../model/course.js";

/** By definition. */
const secondsPerDay = 86_400;

/** @returns undefined where the cast has not both legs */
export function castPath({ columns }: Cast, { clock, down, up }: Legs): CastPath | undefined {
  const [first, last] = [down[0], up.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  const days = (clock.seconds[last]! - clock.seconds[first]!) / secondsPerDay;
  const deepest = columns.pressure_dbar[down.at(-1)!]!;
  return days > 0 && deepest > 0 ? { days, deepest_dbar: deepest } : undefined;
}
