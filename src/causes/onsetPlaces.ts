// Places within a cast where a change of one cell came, for lasting causes.
import type { CellName } from "../cast/cast.js";
import type { ProposalContext } from "../model/cause.js";
import type { Since } from "../model/eventHistory.js";
import { atTheTurn, type ChangePlaces, type PlaceOnCast } from "../model/placesOnCast.js";

/** Probability that a change within the cast came at the place that the scans show, and not at the turn (judgement). */
const placeFoundRight = 0.9;

interface OnsetPlace {
  readonly since: Since;
  readonly places?: ChangePlaces;
  /** Probability of this place, given that the change came then. */
  readonly probability: number;
}

/** @param when before the cast, or within it: at the place that the scans show, or at the turn of the cast */
export function onsetPlaces(
  { cast, onsets }: Pick<ProposalContext, "cast" | "onsets">,
  cells: readonly CellName[],
  when: "before" | "within",
): readonly OnsetPlace[] {
  if (when === "before") return [{ since: { cast, when }, probability: 1 }];
  const at = (place: PlaceOnCast, probability: number): OnsetPlace => ({
    since: { cast, when, ...(place === atTheTurn ? {} : { place }) },
    places: { onsets: Object.fromEntries(cells.map((cell) => [cell, place])) },
    probability,
  });
  const seen = cells.map((cell) => onsets[cell]).find((onset) => onset !== undefined);
  if (seen === undefined) return [at(atTheTurn, 1)];
  const { pressure_dbar, probabilityDown } = seen;
  return [
    at(atTheTurn, 1 - placeFoundRight),
    at({ leg: "down", pressure_dbar }, placeFoundRight * probabilityDown),
    at({ leg: "up", pressure_dbar }, placeFoundRight * (1 - probabilityDown)),
  ];
}
