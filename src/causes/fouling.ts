// Fouling: a film, oil, larvae or scale narrows the cell, so that it reads fresh by the same factor in all water. It comes
// as a step, before the cast or within it, or it grows. It stays until it is cleaned off or shed.

import type { CellName } from "../cast/cast.js";
import type { Cause, Proposal, ProposalContext } from "../model/cause.js";
import { cellEvents, changesSteadily, withCellEvents } from "../model/eventHistory.js";
import { shareOnDeck } from "../model/filmGrowth.js";
import { commonEvent } from "./commonEvent.js";
import { shed } from "./filmShed.js";
import { goodCalibration, leastFilm_ppm } from "./limits.js";
import { onsetPlaces } from "./onsetPlaces.js";
import { evidenceSentence, ppmWords, reportedOnset } from "./sentences.js";

/**
 * Sizes of a step, ppm, as a mixture of half-normals. Lasting ingestions are 50 to 5000 ppm, and small ones are more
 * frequent (range from the events in docs/method.md; the shares are judgement).
 */
const stepSizes = [
  { sd: 80, share: 0.4 },
  { sd: 350, share: 0.4 },
  { sd: 2000, share: 0.2 },
];
/** Growth rates of a film, ppm a day: tens in clean water, hundreds in water with much growth (judgement). */
const growthRates = [
  { sd: 15, share: 0.3 },
  { sd: 60, share: 0.4 },
  { sd: 250, share: 0.3 },
];
/** Growth begins with the lowering, or on deck at this share of the time since the last cast (judgement). */
const begins = [0, 0.5];
/** A film that grows little on deck has less time to grow. For the same size it grows faster in the water, by this factor (judgement). */
const fasterInWater = 2;
/**
 * Probabilities per cast (judgement: one event in some tens of casts on a well-kept package). A film that grows in one cell
 * usually grows in the other too, because both are in the same water. What a cell takes in at depth is small, and seldom comes
 * into both at once (judgement).
 */
const chance = {
  before: 0.015,
  within: 0.02,
  bothWithin: 0.0005,
  bothBefore: 0.004,
  growth: { alone: 0.03, beside: 0.01, both: 0.05 },
};
/** Probability that one cell catches something between the starts of two casts. */
const stepChance = chance.before + chance.within + chance.bothBefore + chance.bothWithin;
/** Of films that came before a cast, this share is washed off in part on the same cast, and about half stays (judgement). */
const firstWash = { share: 0.2, retained: { mean: 0.5, sd: 0.25 } };
/** The slots of a film that came before the cast, or within it. */
const slotsOf = {
  before: { filmDown: 1, filmUp: 1, event: 1 },
  within: { filmUp: 1, event: 1 },
} as const;

export const fouling: Cause<"fouling"> = {
  name: "fouling",
  removedByCleaning: true,
  // Some cells come fouled from the last cruise or from storage, mostly a little, and both alike (judgement).
  initialStates: [
    { prior: 0.02, priorOfBoth: 0.015, ...goodCalibration, filmSd: 80 },
    { prior: 0.015, priorOfBoth: 0.005, ...goodCalibration, filmSd: 400 },
  ],
  initialEvents: (since) => ({ film: { kind: "step", since, removals: [] } }),
  since: ({ film }) => film && { kind: film.kind, since: film.since },
  newEvent: { chance: stepChance, sizes: stepSizes },
  propose: (context) => [
    ...context.cells.flatMap((cell) => [
      ...steps(context, [cell], "before", chance.before),
      ...steps(context, [cell], "within", chance.within),
      ...growth(
        context,
        [cell],
        context.cells.length > 1 ? chance.growth.beside : chance.growth.alone,
      ),
      ...shed(context, [cell]),
      ...washedAtOnce(context, cell),
    ]),
    ...(context.cells.length > 1 ? shed(context, context.cells) : []),
    ...(context.cells.length > 1 ? growth(context, context.cells, chance.growth.both) : []),
    ...(context.cells.length > 1 ? steps(context, context.cells, "before", chance.bothBefore) : []),
    ...(context.cells.length > 1 ? steps(context, context.cells, "within", chance.bothWithin) : []),
  ],
  matches: ({ events: { film }, mean }) =>
    film !== undefined && Math.min(mean("filmDown"), mean("filmUp")) < -leastFilm_ppm,
  sentence: (grounds) => {
    const when = reportedOnset(grounds.change, grounds.earlier);
    const size = `a film of ${ppmWords(grounds.film)}${when === undefined ? "" : `, ${when}`}`;
    return `The cell has ${size}. Without it the gain error would be ${ppmWords(grounds.cleanGain)}. ${evidenceSentence(grounds)}`;
  },
  action: 'It is not clear whether there is a film. See "would decide".',
};

function steps(
  context: ProposalContext,
  cells: readonly CellName[],
  when: "before" | "within",
  prior: number,
): readonly Proposal[] {
  return stepSizes.flatMap(({ sd, share }) =>
    onsetPlaces(context, cells, when).map(({ since, places, probability }) => ({
      prior: prior * share * probability * (when === "before" ? context.castsSinceEvidence : 1),
      coefficients: commonEvent(cells, slotsOf[when], { sd, notPositive: true }),
      ...(places === undefined ? {} : { places }),
      events: cells.reduce((events, cell) => {
        const before = cellEvents(events, cell);
        // A new layer on a film does not change the onset of the film.
        return before.film === undefined ||
          before.film.removals.some(({ how }) => how !== "shed in part")
          ? withCellEvents(events, cell, { ...before, film: { kind: "step", since, removals: [] } })
          : events;
      }, context.events),
    })),
  );
}

function growth(
  context: ProposalContext,
  cells: readonly CellName[],
  prior: number,
): readonly Proposal[] {
  if (cells.some((cell) => changesSteadily(cellEvents(context.events, cell)))) return [];
  const since = { cast: context.cast, when: "before" } as const;
  // Without scans, growth in the water and on deck cannot be told apart.
  const kinds =
    context.inWater_days > 0
      ? ([undefined, "less"] as const).flatMap((onDeck) => begins.map((ago) => ({ onDeck, ago })))
      : [{ onDeck: undefined, ago: 0 }];
  return kinds.flatMap(({ onDeck, ago }) => {
    const events = cells.reduce((all, cell) => {
      const before = cellEvents(all, cell);
      const film = {
        kind: "drift",
        ...(onDeck === undefined ? {} : { onDeck }),
        since: before.film?.since ?? since,
        removals: [],
      } as const;
      return withCellEvents(all, cell, { ...before, film });
    }, context.events);
    const filmDown = ago * shareOnDeck(onDeck) * context.onDeck_days;
    const weights = { filmDown, filmUp: filmDown + context.inWater_days, filmRate: 1, event: 1 };
    return growthRates.map(({ sd, share }) => ({
      prior: (prior * share * context.castsSinceEvidence) / kinds.length,
      coefficients: commonEvent(cells, weights, {
        sd: sd * (onDeck === undefined ? 1 : fasterInWater),
        notPositive: true,
      }),
      events,
    }));
  });
}

/** A film that came before the cast, and is washed off in part where the scans show a change. */
function washedAtOnce(context: ProposalContext, cell: CellName): readonly Proposal[] {
  const before = cellEvents(context.events, cell);
  if (context.onsets[cell] === undefined || before.film !== undefined) return [];
  const since = { cast: context.cast, when: "before" } as const;
  const removals = [{ cast: context.cast, when: "within", how: "shed in part" }] as const;
  const events = withCellEvents(context.events, cell, {
    ...before,
    film: { kind: "step", since, removals },
  });
  const { share: often, retained } = firstWash;
  return stepSizes.flatMap(({ sd, share }) =>
    onsetPlaces(context, [cell], "within").map(({ places, probability }) => ({
      prior: chance.before * often * share * probability * context.castsSinceEvidence,
      coefficients: [
        ...commonEvent(
          [cell],
          { filmDown: 1, filmUp: retained.mean, event: 1 },
          { sd, notPositive: true },
        ),
        ...commonEvent([cell], { filmUp: 1 }, { sd: retained.sd * sd }),
      ],
      ...(places === undefined ? {} : { places }),
      events,
    })),
  );
}
