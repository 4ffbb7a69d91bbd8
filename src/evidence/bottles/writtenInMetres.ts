// Bottles whose pressures are depths in metres: 1000 dbar are about 990 m. If the CTD's readings at closure are written beside such
// a bottle, its conductivity is compared at a pressure 10 dbar too small, which is worth 140 ppm.
import type { Bottle } from "../../cast/bottle.js";

/** Shallower bottles do not count: there the zero of the gauge may be off by as much (judgement: at 500 dbar it is 4 m or more). */
const least_dbar = 500;
/** At least this many bottles must agree (judgement). */
const fewest = 3;
/** Metres per decibar down to 6000 dbar, from the equator to the poles: 0.976 to 0.994 [UNESCO1983], with a margin for the swell. */
const metresPerDbar = { least: 0.97, most: 0.9955 };

/** Whether most of the deep bottles of a cast show that what is written is not the pressure of the CTD but its depth. */
export function areInMetres(
  bottles: readonly Bottle[],
  pressureOf: (bottle: Bottle) => number | undefined,
): boolean {
  const ratios = bottles.flatMap((bottle) => {
    const pressure = pressureOf(bottle);
    return pressure !== undefined && pressure > least_dbar ? [bottle.pressure_dbar / pressure] : [];
  });
  const { least, most } = metresPerDbar;
  const depths = ratios.filter((ratio) => ratio > least && ratio < most);
  return depths.length >= fewest && depths.length > ratios.length / 2;
}
