// The ladder of cleanings, lightest first. A ship's own procedure replaces it: readLadder.ts.
import { descale } from "./intensities/descale.js";
import { disinfect } from "./intensities/disinfect.js";
import { exchange } from "./intensities/exchange.js";
import { rinse } from "./intensities/rinse.js";
import { soak } from "./intensities/soak.js";
import { wash } from "./intensities/wash.js";
import type { Intensity, Ladder } from "./intensity.js";

export const defaultLadder: Ladder = [rinse, wash, soak, disinfect, descale, exchange];

/**
 * An intensity by its name.
 * @throws RangeError if the ladder has none of that name
 */
export function rungOf(ladder: Ladder, name: Intensity["name"]): Intensity {
  const rung = ladder.find((intensity) => intensity.name === name);
  if (rung === undefined) throw new RangeError(`the ladder has no ${name}`);
  return rung;
}
