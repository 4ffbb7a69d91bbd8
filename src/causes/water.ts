// Water: the ocean differed between the legs: a front, an interleaving layer. It moves the comparison of
// the legs, layer by layer and with either sign, and nothing else.
import type { Observation } from "../evidence/evidence.js";
import type { Cause } from "./cause.js";

/** Differences of water between legs some tens of minutes apart, ppm, beside the ordinary (judgement). */
const sizes = [
  { share: 0.6, extraVariance: onLegs(60) },
  { share: 0.4, extraVariance: onLegs(300) },
];
const chance = 0.05;

export const water: Cause = {
  name: "water",
  mendedByCleaning: false,
  beginnings: [],
  propose: ({ lines }) =>
    lines.has("legs")
      ? sizes.map(({ share, extraVariance }) => ({
          prior: chance * share,
          coefficients: [],
          extraVariance,
          doubt: "water" as const,
        }))
      : [],
};

function onLegs(sd_ppm: number) {
  return ({ line }: Observation) => (line === "legs" ? sd_ppm ** 2 : 0);
}
