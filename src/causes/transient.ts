// Transient: something was taken in and shed again within the cast. The reading leaves and comes back; what is left of it
// at the end of the cast is mostly washed out by the rinse.

import type { Cause, Proposal } from "../model/cause.js";
import { type Excursion, excursionChance } from "../model/course.js";
import { leastFilm_ppm } from "./limits.js";
import { gain, resting } from "./sentences.js";

/** Sizes, ppm, a mixture of half-normals: as films, without small ones, which nobody can see go (judgement). */
const sizes = [
  { sd: 300, share: 0.6 },
  { sd: 2000, share: 0.4 },
];
/** Skip what the search finds less probable than this: without a second cell a front looks much the same (judgement). */
const leastProbability = { withPair: 0.01, alone: 0.5 };

/** Smaller ones, ppm, do no harm, and sensors that are uneven with depth look like them (judgement). */
const least_ppm = -20;

export const transient: Cause<"transient"> = {
  name: "transient",
  mendedByCleaning: false,
  passesByItself: true,
  leftAndCorrected: false,
  beginnings: [],
  propose: ({ excursions }) =>
    excursions
      .filter(({ ppm, probability, withPair }) => {
        const least = withPair ? leastProbability.withPair : leastProbability.alone;
        return ppm < least_ppm && probability > least;
      })
      .flatMap(passed),
  names: ({ doubt, mean }) => doubt?.cause === "transient" && mean("event") < -leastFilm_ppm,
  sentence: (grounds) =>
    `Something was taken in and shed again within the cast. The cast ended at ${gain(grounds.up)}. ${resting(grounds)}`,
  action:
    "Rinse the cell as usual. What it took in has gone again. Look at the legs of the next cast.",
};

function passed({ cell, passing, probability, logAgainstStep }: Excursion): readonly Proposal[] {
  // The bound keeps the odds finite (judgement).
  const odds = probability / Math.max(1e-6, 1 - probability);
  return sizes.map(({ sd, share }) => ({
    prior: excursionChance * share,
    coefficients: [{ acts: [{ cell, slot: "event", weight: 1 }], sd, notPositive: cell }],
    course: { passing },
    // The layers of legs and pair are too thick to see it come and go: the search of the path has seen more. A step that
    // stays they see themselves, and beside one the search tells only how it went on.
    logResponse: Math.min(
      Math.log(odds / (excursionChance / (1 - excursionChance))),
      logAgainstStep,
    ),
    doubt: { cause: "transient", cell },
  }));
}
