// Reference error: this cast's bottles disagree with the cell, while legs, pair and deep water do not change. Reasons: a
// wrong standardisation, a batch of seals through which water evaporates, or salinities that belong to other bottles.

import type { Cause, Proposal } from "../model/cause.js";
import { gainWords, lineNumbers } from "./sentences.js";

/** Standard deviation of a possible error, ppm, and the probability of such an error per cast. */
interface Size {
  readonly sd: number;
  readonly chance: number;
}

/**
 * A spoilt batch of samples, by evaporation through the seals or by rinse water left inside: off by hundredths to a tenth
 * in salinity (judgement).
 */
const spoilt_ppm = 2000;
/**
 * All salinities of the cast belong to other bottles: labels of two casts exchanged, or crates mixed up. They are off by
 * tenths in salinity. Once in four hundred casts (judgement).
 */
const otherBottles: Size = { sd: 15_000, chance: 0.0024 };
/**
 * The noise of the error `run` describes usual runs. One new run in twenty has a larger error, of a few thousandths in salinity.
 * One in a hundred has an error of up to a hundredth (judgement). Half of these probabilities would be too small: on some shallow
 * casts of the Arctic cruise of 2015, with bottles in gradients, a shift of the cell was then reported.
 */
const sizesOfNewRun: readonly Size[] = [
  { sd: 60, chance: 0.048 },
  { sd: 200, chance: 0.0096 },
  { sd: spoilt_ppm, chance: 0.0024 },
  otherBottles,
];
/**
 * A run that continues from the cast before was standardised earlier. The remaining errors are this cast's own seals or a
 * salinometer that drifts: a tenth as frequent (judgement).
 */
const sizesOfContinuedRun: readonly Size[] = [
  { sd: 80, chance: 0.0024 },
  { sd: spoilt_ppm, chance: 0.0012 },
  otherBottles,
];

/**
 * One or two bottles have no others for comparison. Any of them may have leaked, tripped at the wrong depth or closed in a
 * strong gradient: about one in ten (judgement).
 */
const stray: Size & { readonly fewerThan: number } = { sd: 2500, chance: 0.1, fewerThan: 2.5 };

/**
 * From a new run on all salinities are off together. By about a thousandth, because the laboratory uses other ampoules of
 * standard seawater, another instrument or another operator: no doubt about one cast, because it stays. Or by up to two
 * hundredths, because water evaporates from all bottles in storage; ppm (judgement).
 */
const onAllSamples = {
  otherStandard: { chance: 0.004, sd: 35 },
  stored: { chance: 0.002, sd: 400 },
};

export const referenceError: Cause<"reference-error"> = {
  name: "reference-error",
  doubtLastsWith: "run",
  propose: ({ lines, unchangedErrors }) => {
    const bottles = lines.get("bottles");
    if (bottles === undefined) return [];
    const goesOn = unchangedErrors.has("run");
    const sizes = goesOn ? sizesOfContinuedRun : sizesOfNewRun;
    const likely = bottles < stray.fewerThan ? [stray] : [];
    const { otherStandard, stored } = onAllSamples;
    const lasting = [
      { ...proposal("batch", otherStandard), doubts: [] },
      proposal("batch", stored),
    ];
    return [
      ...(goesOn ? [] : lasting),
      ...[...sizes, ...likely].map((size) => proposal("run", size)),
    ];
  },
  matches: ({ isDoubted }) => isDoubted("reference-error"),
  sentence: ({ evidence, up }) =>
    evidence.some(({ line }) => line === "bottles")
      ? `This cast's bottles disagree with the cell (${lineNumbers(evidence, "bottles")}). By the other evidence the gain error is ${gainWords(up)}.`
      : `The laboratory run of the bottles before this cast seems to be off. By the other evidence the gain error is ${gainWords(up)}.`,
  action:
    "Check the references: compare the labels of the samples with the log. Run the standards again. Measure duplicate or stored samples of this cast.",
};

function proposal(shared: "run" | "batch", { sd, chance }: Size): Proposal {
  return {
    prior: chance,
    coefficients: [{ acts: [{ shared, weight: 1 }], sd }],
    doubts: [{ cause: "reference-error" }],
  };
}
