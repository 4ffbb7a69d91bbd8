// Reference error: this cast's bottles disagree with the cell while legs, pair and deep water do not move:
// a standardisation gone wrong, a mixed-up case of samples, a batch of seals that evaporate.
import type { Cause } from "./cause.js";

/** Mistaken runs are off by some thousandths in salinity, mixed-up cases by far more, ppm (judgement). */
const sizes = [
  { sd: 60, share: 0.7 },
  { sd: 400, share: 0.3 },
];
/** Runs that move by more than the usual 0.0003 are seen on good cruises [CruiseReports2022]. */
const chance = 0.04;

export const referenceError: Cause = {
  name: "reference-error",
  mendedByCleaning: false,
  beginnings: [],
  propose: ({ lines }) =>
    lines.has("bottles")
      ? sizes.map(({ sd, share }) => ({
          prior: chance * share,
          coefficients: [{ acts: [{ shared: "run", weight: 1 }], sd }],
          doubt: "reference-error" as const,
        }))
      : [],
};
