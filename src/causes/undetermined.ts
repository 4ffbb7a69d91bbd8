// Undetermined: none of the other patterns fits; every observation of the cast may be off by far more
// than it claims, and the cast says little.
import type { Cause } from "../model/cause.js";

const chance = 0.002;
/** Off by some hundredths in salinity, or by units: a wrong cast, a wrong place. */
const sizes = [
  { share: 0.7, extraVariance: () => 500 ** 2 },
  { share: 0.3, extraVariance: () => 20_000 ** 2 },
];

export const undetermined: Cause = {
  name: "undetermined",
  mendedByCleaning: false,
  beginnings: [],
  propose: () =>
    sizes.map(({ share, extraVariance }) => ({
      prior: chance * share,
      coefficients: [],
      extraVariance,
      doubt: { cause: "undetermined" },
    })),
};
