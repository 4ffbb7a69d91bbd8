// Water: the ocean differed between the legs: a front, an interleaving layer. It moves the comparison of the legs,
// of both cells alike, as a whole and layer by layer, with either sign, and nothing else.
import type { Observation } from "../evidence/evidence.js";
import type { Cause } from "./cause.js";

/** Differences of water between legs some tens of minutes apart, ppm, beside the ordinary (judgement). */
const sizes = [
  { share: 0.3, sd: 100, extraVariance: onLegs(0) },
  { share: 0.4, sd: 60, extraVariance: onLegs(60) },
  { share: 0.3, sd: 300, extraVariance: onLegs(300) },
];
const chance = 0.05;
const doubt = { cause: "water" } as const;

export const water: Cause = {
  name: "water",
  mendedByCleaning: false,
  beginnings: [],
  propose: ({ lines }) =>
    lines.has("legs")
      ? sizes.map(({ share, sd, extraVariance }) => ({
          prior: chance * share,
          coefficients: [{ acts: [{ shared: "legsWater", weight: 1 }], sd }],
          extraVariance,
          doubt,
        }))
      : [],
};

function onLegs(sd_ppm: number) {
  return ({ line }: Observation) => (line === "legs" ? sd_ppm ** 2 : 0);
}
