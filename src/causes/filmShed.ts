// A film that goes without a cleaning: the water takes it off the cell, all of it or a part, before a cast or within it.

import type { CellName } from "../cast/cast.js";
import type { Proposal, ProposalContext } from "../model/cause.js";
import {
  cellEvents,
  type EventHistory,
  type FilmRemoval,
  withCellEvents,
} from "../model/eventHistory.js";
import { onsetPlaces } from "./onsetPlaces.js";

/**
 * A film is seldom shed completely by itself, at a soak or a stop. Oil is washed off in part, and then more of it on later casts;
 * or little by little from cast to cast, by rinses and by the flow. What a cleaning left is not rinsed off. Probabilities are per
 * cast (judgement).
 */
const shedding = {
  whole: { chance: 0.01, retained: { mean: 0.1, sd: 0.1 } },
  part: { chance: 0.03, again: 0.4, retained: { mean: 0.6, sd: 0.2 } },
  little: { chance: 0.02, retained: { mean: 0.93, sd: 0.05 } },
};
/** Both cells may shed together: the same water washes them, or a cleaning that is not in the record. */
export function shed(context: ProposalContext, cells: readonly CellName[]): readonly Proposal[] {
  const films = cells.map((cell) => cellEvents(context.events, cell).film);
  if (films.includes(undefined)) return [];
  const { whole, part, little } = shedding;
  // With two cells, both together are half as probable as one alone (judgement).
  const together = cells.length > 1 ? 0.5 : 1;
  const goesOn = films.some((film) => film?.removals.at(-1)?.how === "shed in part");
  const kinds = [
    { how: "shed", retained: whole.retained, chance: together * whole.chance },
    {
      how: "shed in part",
      retained: part.retained,
      chance: together * (goesOn ? part.again : part.chance),
    },
    // Once it has begun, the noise of the film has it.
    ...(films.some((film) => film!.removals.length > 0)
      ? []
      : [
          {
            how: "shed in part",
            retained: little.retained,
            chance: together * little.chance,
          } as const,
        ]),
  ] as const;
  return kinds.flatMap(({ how, chance, retained }) =>
    (["before", "within"] as const).flatMap((when) => {
      const change = { cells, when, retained };
      const events = cells.reduce(
        (all, cell) => withRemoval(all, cell, { cast: context.cast, when, how }),
        context.events,
      );
      return onsetPlaces(context, cells, when).map(({ places, probability }) => ({
        prior: (chance / 2) * probability,
        coefficients: [],
        shed: change,
        ...(places === undefined ? {} : { places }),
        events,
      }));
    }),
  );
}

/** A film that is washed off in part again and again has one entry for all of it. */
function withRemoval(events: EventHistory, cell: CellName, removal: FilmRemoval): EventHistory {
  const before = cellEvents(events, cell);
  const { film } = before;
  if (film === undefined) return events;
  const last = film.removals.at(-1)?.how;
  if (removal.how === "shed in part" && last === removal.how) return events;
  return withCellEvents(events, cell, {
    ...before,
    film: { ...film, removals: [...film.removals, removal] },
  });
}
