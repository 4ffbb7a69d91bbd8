// One cell less the other: what such an observation sees.
import type { LegName } from "../cast/cast.js";
import { besideTheGain } from "./designRow.js";
import { type DesignTerm, gainOf, type Observation } from "./observation.js";

/**
 * What two healthy pairs of sensors differ by from depth to depth, ppm, however many readings are averaged:
 * small non-linearities and pressure effects of four sensors (judgement, from the closures of three cruises
 * in open data with two uncalibrated pairs, which differ by 10 to 25 ppm from 100 to 2500 dbar).
 */
export const unevenness_ppm = 8;

/**
 * One gain less the other, with what sensors and thermometers differ by on this cast.
 * @param lag_ppm what the usual thermal lag makes of one cell there: of two cells the lags differ; 0 where they stand
 */
export function pairDesign(
  leg: LegName,
  at: Pick<Observation, "pressure_dbar" | "water">,
  lag_ppm = 0,
): readonly DesignTerm[] {
  return [
    gainOf("primary", leg),
    gainOf("secondary", leg, -1),
    { shared: "pairWander", weight: 1 },
    // What the thermometers usually differ by is in the gains; what they do on one cast is not.
    { shared: "thermometersNow", weight: besideTheGain(at).perMillikelvin },
    { shared: "pairLag", weight: lag_ppm },
  ];
}
