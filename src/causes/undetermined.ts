// Undetermined: none of the other patterns fits; every observation of the cast may be off by far more
// than it claims, and the cast says little.
import type { Cause } from "./cause.js";

const chance = 0.002;
const sd_ppm = 500;
const everywhere = () => sd_ppm ** 2;

export const undetermined: Cause = {
  name: "undetermined",
  mendedByCleaning: false,
  beginnings: [],
  propose: () => [
    { prior: chance, coefficients: [], extraVariance: everywhere, doubt: "undetermined" },
  ],
};
