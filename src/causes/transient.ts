// Transient: something was ingested and shed again within the cast. The reading leaves its level and returns. The rinse
// mostly washes out what is left at the end of the cast.

import type { CellName } from "../cast/cast.js";
import type { Cause, Proposal, ProposalContext } from "../model/cause.js";
import { gainTerms, type Observation } from "../model/observation.js";
import { excursionPrior, shareLeft, type TransientCandidate } from "../model/placesOnCast.js";
import { leastFilm_ppm } from "./limits.js";
import { onsetPlaces } from "./onsetPlaces.js";
import { evidenceSentence, gainWords } from "./sentences.js";

/** Sizes, ppm, a mixture of half-normals: as films, without small ones, whose shedding cannot be seen (judgement). */
const sizes = [
  { sd: 300, share: 0.6 },
  { sd: 2000, share: 0.4 },
];
/**
 * Skip excursions with a smaller probability in the search: without a second cell a front looks much the same (judgement).
 */
const leastProbability = { withPair: 0.01, alone: 0.5 };

/** Skip smaller ones, ppm: they do no harm, and an uneven depth response of the sensors looks like them (judgement). */
const least_ppm = -20;

/**
 * What enters a cell does not leave it by an exact exponential. A thick layer is off from that course by a share of the
 * excursion: mostly little, sometimes much, as where it leaves in pieces (judgement).
 */
const offCourse = [
  { size: 0.07, share: 0.7 },
  { size: 0.3, share: 0.3 },
];

export const transient: Cause<"transient"> = {
  name: "transient",
  isTemporary: true,
  propose: (context) => [
    ...context.excursions
      .filter(({ ppm, probability, withPair }) => {
        const least = withPair ? leastProbability.withPair : leastProbability.alone;
        return ppm < least_ppm && probability > least;
      })
      .flatMap(proposalsOf),
    ...context.cells
      .filter((cell) => context.onsets[cell] !== undefined)
      .flatMap((cell) => thereFromTheStart(context, cell)),
  ],
  matches: ({ isDoubted, mean }) => isDoubted("transient") && mean("event") < -leastFilm_ppm,
  sentence: (grounds) =>
    `Something entered the cell and left it again during the cast. At the end of the cast the gain error was ${gainWords(grounds.up)}. ${evidenceSentence(grounds)}`,
  action: "What entered the cell has left it. Look at the legs of the next cast.",
};

/** It was in the cell when the lowering began and left at the place that the scans show, as ice does when it melts. */
function thereFromTheStart(context: ProposalContext, cell: CellName): readonly Proposal[] {
  const acts = [
    { cell, slot: "filmDown", weight: 1 },
    { cell, slot: "event", weight: 1 },
  ] as const;
  return onsetPlaces(context, [cell], "within").flatMap(({ places, probability }) =>
    sizes.map(({ sd, share }) => ({
      prior: excursionPrior * share * probability,
      coefficients: [{ acts, sd, notPositive: cell }],
      ...(places === undefined ? {} : { places }),
      doubts: [{ cause: "transient", cell }],
    })),
  );
}

function proposalsOf({
  cell,
  course,
  ppm,
  probability,
  logAgainstStep,
}: TransientCandidate): readonly Proposal[] {
  // The bound keeps the odds finite (judgement).
  const odds = probability / Math.max(1e-6, 1 - probability);
  const leftAt = (observation: Observation): number => {
    const { onTheMove, pressure_dbar } = observation;
    const term = gainTerms(observation).find(({ gain }) => gain.cell === cell);
    if (onTheMove !== true || pressure_dbar === undefined || term === undefined) return 0;
    return ppm * shareLeft(course, term.gain.leg, pressure_dbar);
  };
  return offCourse.flatMap((off) => {
    const extraVariance = (observation: Observation) => (off.size * leftAt(observation)) ** 2;
    return sizes.map(({ sd, share }) => ({
      prior: excursionPrior * off.share * share,
      coefficients: [{ acts: [{ cell, slot: "event", weight: 1 }], sd, notPositive: cell }],
      extraVariance,
      places: { transient: course },
      // The layers of legs and pair are too thick to show an excursion; the search along the path sees more. But these layers do
      // show a lasting step. So, compared with a step, the search adds only what follows the onset.
      logResponse: Math.min(
        Math.log(odds / (excursionPrior / (1 - excursionPrior))),
        logAgainstStep,
      ),
      doubts: [{ cause: "transient", cell }],
    }));
  });
}
