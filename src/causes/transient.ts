// Transient: something was taken in and shed again within the cast. The reading leaves and comes back; what is left of it
// at the end of the cast is mostly washed out by the rinse.
import type { Excursion } from "../evidence/path/excursion.js";
import { excursionWeight } from "../evidence/path/excursionWeight.js";
import type { Cause, Proposal } from "../model/cause.js";

/** As the search of the path has it beforehand, about one cast in three hundred (judgement). */
const chance = 1 / 300;
/** Sizes, ppm, as a mixture of half-normals: as films, without the small ones, of which nobody can say that they went. */
const sizes = [
  { sd: 300, share: 0.6 },
  { sd: 2000, share: 0.4 },
];
/** What the search finds less probable than this is not looked at; without a second cell a front looks much the same. */
export const leastProbability = { withPair: 0.01, alone: 0.5 };

/** Smaller ones are nothing to speak of, and sensors that are uneven with depth look like them. */
const least_ppm = -20;

export const transient: Cause = {
  name: "transient",
  mendedByCleaning: false,
  beginnings: [],
  propose: ({ excursions }) =>
    excursions
      .filter(({ ppm, probability, logBayesFactor: { otherCell } }) => {
        const { withPair, alone } = leastProbability;
        const least = otherCell === undefined ? alone : withPair;
        return ppm.value < least_ppm && probability > least;
      })
      .flatMap(passed),
};

function passed(excursion: Excursion): readonly Proposal[] {
  const { cell, leg, onset_dbar, recovery_dbar, probability, logBayesFactor } = excursion;
  const course = {
    passing: {
      cell,
      of: `${leg} ${onset_dbar.value} ${recovery_dbar.value}`,
      share: (at: "down" | "up", pressure_dbar: number) =>
        excursionWeight(excursion, at, pressure_dbar),
    },
  };
  const odds = probability / Math.max(1e-6, 1 - probability);
  return sizes.map(({ sd, share }) => ({
    prior: chance * share,
    coefficients: [{ acts: [{ cell, slot: "event", weight: 1 }], sd, notPositive: cell }],
    course,
    // The layers of legs and pair are too thick to see it come and go: the search of the path has seen more. A step that
    // stays they see themselves, and beside one the search tells only how it went on.
    logResponse: Math.min(Math.log(odds / (chance / (1 - chance))), logBayesFactor.step),
    doubt: { cause: "transient", cell },
  }));
}
