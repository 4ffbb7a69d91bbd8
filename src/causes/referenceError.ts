// Reference error: this cast's bottles disagree with the cell while legs, pair and deep water do not move:
// a standardisation gone wrong, a batch of seals that let water evaporate.

import type { Cause, Proposal } from "../model/cause.js";
import { gain, lineNumbers } from "./sentences.js";

/** Runs that move by more than the usual 0.0003 are seen on good cruises [CruiseReports2022]. */
const chance = 0.025;
/**
 * A batch of samples spoilt, by seals that let water evaporate or by rinse water left in: off by hundredths to a tenth in
 * salinity, ppm (judgement).
 */
function spoilt(share: number) {
  return { sd: 2000, share };
}
/** Mistaken runs are off by some thousandths in salinity, as often as not by more, up to a hundredth, ppm (judgement). */
const ofNewRun = [{ sd: 60, share: 0.5 }, { sd: 200, share: 0.4 }, spoilt(0.1)];
/**
 * A run that has been going on was standardised before: what may still go wrong is this cast's own seals, or a salinometer
 * that drifts, a tenth as often and by some thousandths (judgement).
 */
const ofRunThatGoesOn = [{ sd: 80, share: 0.1 }, spoilt(0.05)];

/**
 * One or two bottles have none beside them to be judged by: any of them may have leaked, tripped elsewhere or
 * closed where the water changes by the metre, about one in ten (judgement).
 */
const stray = { sd: 2500, chance: 0.1, fewerThan: 2.5 };

export const referenceError: Cause<"reference-error"> = {
  name: "reference-error",
  mendedByCleaning: false,
  passesByItself: false,
  leftAndCorrected: false,
  goesOnWith: "run",
  beginnings: [],
  propose: ({ lines, kept }) => {
    const bottles = lines.get("bottles");
    if (bottles === undefined) return [];
    const sizes = kept.has("run") ? ofRunThatGoesOn : ofNewRun;
    const usual = sizes.map(({ sd, share }) => proposal(chance * share, sd));
    return bottles < stray.fewerThan ? [...usual, proposal(stray.chance, stray.sd)] : usual;
  },
  names: ({ doubt }) => doubt?.cause === "reference-error",
  sentence: ({ evidence, up }) =>
    evidence.some(({ line }) => line === "bottles")
      ? `This cast's bottles disagree with the cell (${lineNumbers(evidence, "bottles")}). By the other evidence the gain error is ${gain(up)}.`
      : `The laboratory run of the bottles before this cast seems to be off. By the other evidence the gain error is ${gain(up)}.`,
  action:
    "Rinse the cell as usual. Check the references: run the standards again, and measure duplicate or stored samples of this cast.",
};

function proposal(prior: number, sd: number): Proposal {
  return {
    prior,
    coefficients: [{ acts: [{ shared: "run", weight: 1 }], sd }],
    doubt: { cause: "reference-error" },
  };
}
