// Films from the end of one cast to the start of the next: the water washes them off, and on deck they may grow less.
import type { CellName } from "../cast/cast.js";
import { lessOnDeck } from "../model/filmGrowth.js";
import { type Gaussian, widen } from "../model/gaussian.js";
import { cellIndex, type Layout } from "../model/layout.js";
import type { FilterStep } from "../model/updates.js";

/**
 * A film that has begun to wash off goes on (judgement). The same water washes both cells.
 * - `share` that it loses from cast to cast
 * - `common` standard deviation of that share, common to both cells
 */
const washedOff = { share: 0.07, common: 0.1 };
/** Standard deviation of the share that each cell loses for itself (judgement). */
export const ownShareWashedOff = 0.05;
/**
 * Films that came to both cells at once change alike, and the pair does not show it. If they were constant, a change at every cast
 * would be taken for errors of the references: standard deviation of the share that changes from cast to cast (judgement). A film of
 * one cell is constant until it is shed: otherwise a steady film of hundreds of ppm would look like a calibration shift.
 */
const changeOfBoth = 0.1;

/** The water changes films by shares of themselves. Changes the state in place. */
export function washFilms(
  layout: Layout,
  state: Gaussian,
  { filmed, washed = [], filmedAlike }: Extract<FilterStep, { kind: "predict" }>,
): void {
  const film = (cell: CellName) => state.mean[cellIndex(layout, cell, "filmUp")]!;
  widen(state, onFilms(layout, washed, film), -washedOff.share, washedOff.common ** 2);
  if (filmedAlike) widen(state, onFilms(layout, filmed, film), 0, changeOfBoth ** 2);
}

/** The uncertain growth on deck is the same share of the rate in both cells: both had the same care. Changes the state in place. */
export function growLessOnDeck(
  layout: Layout,
  state: Gaussian,
  less: readonly CellName[],
  onDeck_days: number,
): void {
  const growth = (cell: CellName) => state.mean[cellIndex(layout, cell, "filmRate")]! * onDeck_days;
  widen(state, onFilms(layout, less, growth), 0, lessOnDeck.sd ** 2);
}

/** A direction of the state: changes of the films at the end of the up leg, before they are passed on to this cast. */
function onFilms(
  layout: Layout,
  cells: readonly CellName[],
  change: (cell: CellName) => number,
): Float64Array {
  const direction = new Float64Array(layout.size);
  for (const cell of cells) direction[cellIndex(layout, cell, "filmUp")] = change(cell);
  return direction;
}
