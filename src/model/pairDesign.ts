// The design of an observation that is one cell minus the other.
import type { LegName } from "../cast/cast.js";
import { gainSensitivity } from "./designRow.js";
import { type DesignTerm, gainOf, type Observation } from "./observation.js";

/**
 * Standard deviation from depth to depth of the difference of two sound pairs of sensors, ppm. Averaging more readings does
 * not reduce it. It comes from small non-linearities and pressure effects of four sensors (judgement, from the closures of
 * three cruises in open data with two uncalibrated pairs, which differ by 10 to 25 ppm from 100 to 2500 dbar).
 */
export const depthScatter_ppm = 8;

/**
 * Conductivity of cold deep water, mS/cm. The non-linearity of a pair is defined as zero there, because most bottles are
 * there (judgement).
 */
const deepConductivity_mS_cm = 32;

/** What the usual thermal lag, heat in its outer parts and a delay of one dbar of the path do to one cell at a place, ppm. */
interface ResponseThere {
  readonly lag: number;
  readonly outerHeat: number;
  readonly delay: number;
}

/**
 * One gain minus the other, with the differences of the sensors and thermometers on this cast.
 * @param response because the responses of two cells differ; absent at a stop
 */
export function pairDesign(
  leg: LegName,
  at: Pick<Observation, "pressure_dbar" | "water">,
  response: ResponseThere = { lag: 0, outerHeat: 0, delay: 0 },
): readonly DesignTerm[] {
  const { perMillikelvin, perMicrosiemens } = gainSensitivity(at);
  const beyondDeepWater =
    at.water === undefined ? 0 : perMicrosiemens - 1e3 / deepConductivity_mS_cm;
  return [
    gainOf("primary", leg),
    gainOf("secondary", leg, -1),
    { shared: "pairScatter", weight: 1 },
    // The usual difference of the thermometers is part of the gains; its change on one cast is not.
    { shared: "thermometersOfCast", weight: perMillikelvin },
    { shared: "pairLag", weight: response.lag },
    { shared: "pairOuterHeat", weight: response.outerHeat },
    { shared: "pairDelay", weight: response.delay },
    // Water from above comes late on the way down, water from below on the way up. A higher intake has water from above on both.
    { shared: "pairHeight", weight: leg === "down" ? response.delay : -response.delay },
    { shared: "pairNonlinearity", weight: beyondDeepWater },
  ];
}
