// Reference error: this cast's bottles disagree with the cell, while legs, pair and deep water do not change. Reasons: a
// wrong standardisation, a batch of seals through which water evaporates, or salinities that belong to other bottles.

import type { Cause, Proposal } from "../model/cause.js";
import { gainWords, lineNumbers } from "./sentences.js";

/**
 * Probability per new run. Runs that move by more than the usual 0.0003 are seen on good cruises [CruiseReports2022]. In a less
 * steady laboratory one run in twenty moves by 0.001 or 0.002 (judgement).
 */
const chance = 0.06;
/**
 * A spoilt batch of samples, by evaporation through the seals or by rinse water left inside: off by hundredths to a tenth
 * in salinity, ppm (judgement).
 */
function spoilt(share: number) {
  return { sd: 2000, share };
}
/**
 * All salinities of the cast belong to other bottles: labels of two casts exchanged, or crates mixed up. They are off by
 * tenths, ppm. Once in some hundred casts (judgement).
 */
const otherBottles = { sd: 15_000, share: 0.04 };
/** Unsteady runs are off by a thousandth or two in salinity, mistaken ones by up to a hundredth, ppm (judgement). */
const sizesOfNewRun = [
  { sd: 60, share: 0.8 },
  { sd: 200, share: 0.16 },
  spoilt(0.04),
  otherBottles,
];
/**
 * A run that continues from the cast before was standardised earlier. The remaining errors are this cast's own seals or a
 * salinometer that drifts: one in seventeen as frequent, and some thousandths in size (judgement).
 */
const sizesOfContinuedRun = [{ sd: 80, share: 0.04 }, spoilt(0.02), otherBottles];

/**
 * One or two bottles have no others for comparison. Any of them may have leaked, tripped at the wrong depth or closed in a
 * strong gradient: about one in ten (judgement).
 */
const stray = { sd: 2500, chance: 0.1, fewerThan: 2.5 };

/**
 * From this cast on the laboratory uses other ampoules of standard seawater, another instrument or another operator. All
 * salinities then move by about a thousandth, ppm (judgement). This is not a doubt about one cast, because it stays.
 */
const otherStandard: Proposal = {
  prior: 0.004,
  coefficients: [{ acts: [{ shared: "batch", weight: 1 }], sd: 35 }],
};

export const referenceError: Cause<"reference-error"> = {
  name: "reference-error",
  removedByCleaning: false,
  isTemporary: false,
  isCorrectedOnly: false,
  doubtLastsWith: "run",
  initialStates: [],
  propose: ({ lines, unchangedErrors }) => {
    const bottles = lines.get("bottles");
    if (bottles === undefined) return [];
    const sizes = unchangedErrors.has("run") ? sizesOfContinuedRun : sizesOfNewRun;
    const usual = sizes.map(({ sd, share }) => proposal(chance * share, sd));
    const likely = bottles < stray.fewerThan ? [proposal(stray.chance, stray.sd)] : [];
    return [otherStandard, ...usual, ...likely];
  },
  matches: ({ doubt }) => doubt?.cause === "reference-error",
  sentence: ({ evidence, up }) =>
    evidence.some(({ line }) => line === "bottles")
      ? `This cast's bottles disagree with the cell (${lineNumbers(evidence, "bottles")}). By the other evidence the gain error is ${gainWords(up)}.`
      : `The laboratory run of the bottles before this cast seems to be off. By the other evidence the gain error is ${gainWords(up)}.`,
  action:
    "Rinse the cell as usual. Check the references: compare the labels of the samples with the log. Run the standards again. Measure duplicate or stored samples of this cast.",
};

function proposal(prior: number, sd: number): Proposal {
  return {
    prior,
    coefficients: [{ acts: [{ shared: "run", weight: 1 }], sd }],
    doubt: { cause: "reference-error" },
  };
}
