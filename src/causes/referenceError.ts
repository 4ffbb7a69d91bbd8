// Reference error: this cast's bottles disagree with the cell while legs, pair and deep water do not move:
// a standardisation gone wrong, a batch of seals that let water evaporate.
import type { Cause, Proposal } from "../model/cause.js";

/** Runs that move by more than the usual 0.0003 are seen on good cruises [CruiseReports2022]. */
const chance = 0.04;
/** Mistaken runs are off by some thousandths in salinity, as often as not by more, up to a hundredth, ppm (judgement). */
const ofNewRun = [
  { sd: 60, share: 0.5 },
  { sd: 200, share: 0.5 },
];
/**
 * A run that has been going on was standardised before: what may still go wrong is this cast's own seals, or a salinometer
 * that drifts, a tenth as often and by some thousandths (judgement).
 */
const ofRunThatGoesOn = [{ sd: 80, share: 0.1 }];

/**
 * One or two bottles have none beside them to be judged by: any of them may have leaked, tripped elsewhere or
 * closed where the water changes by the metre, about one in ten (judgement).
 */
const stray = { sd: 2500, chance: 0.1, fewerThan: 2.5 };

export const referenceError: Cause = {
  name: "reference-error",
  mendedByCleaning: false,
  beginnings: [],
  propose: ({ bottles, runGoesOn }) => {
    if (bottles === 0) return [];
    const sizes = runGoesOn ? ofRunThatGoesOn : ofNewRun;
    const usual = sizes.map(({ sd, share }) => proposal(chance * share, sd));
    return bottles < stray.fewerThan ? [...usual, proposal(stray.chance, stray.sd)] : usual;
  },
};

function proposal(prior: number, sd: number): Proposal {
  return {
    prior,
    coefficients: [{ acts: [{ shared: "run", weight: 1 }], sd }],
    doubt: { cause: "reference-error" },
  };
}
