// The least variance with which a cell's gain could be known from the same observations: what happened, and
// where, is told beforehand; only the sizes are estimated, from a rough idea of them (the posterior variance of the linear Gaussian
// problem, which is the Bayesian Cramer-Rao bound [VanTrees1968]).
import type { CellName } from "../../src/cast/cast.js";
import { wakeDepth_dbar } from "../../src/evidence/bottleNoise.js";
import {
  assign,
  certainZero,
  condition,
  type Gaussian,
  projected,
  redraw,
  widen,
} from "../../src/track/gaussian.js";
import { usualNoise } from "../../src/track/noise.js";
import {
  cellIndex,
  gainRow,
  type Layout,
  layoutFor,
  type Place,
  rowOf,
  sharedIndex,
} from "../../src/track/state.js";
import type { TrackedInput } from "../../src/track/track.js";

/** What is told of one cell on one cast. */
export interface Told {
  /** ppm. */
  readonly clean: number;
  readonly filmDown: number;
  readonly filmUp: number;
  /** Where a film came within the cast. */
  readonly onset?: Place;
}

/** The size of a change is told to within a factor: this much of it, and at least so many ppm, as a spread. */
const spread = { share: 2, least_ppm: 20 };
/** Spread of the clean gain and of the pressure response beforehand, as the simulation draws them. */
const prior = { clean: 130, pressure: 8 };
const moved = (a: number, b: number) => Math.abs(a - b) > 1e-9;

/** Standard deviation of each cell's gain as each up leg ends: bounds[cast][cell index], ppm. */
export function bounds(
  cells: readonly CellName[],
  inputs: readonly TrackedInput[],
  told: (castIndex: number, cell: CellName) => Told,
): readonly (readonly number[])[] {
  const layout = layoutFor(cells);
  const state = certainZero(layout.size);
  redraw(state, sharedIndex(layout, "wake"), 0, wakeDepth_dbar.sd ** 2);
  return inputs.map((input, i) => {
    for (const cell of cells)
      advance(layout, state, cell, i === 0 ? undefined : told(i - 1, cell), told(i, cell));
    if (input.run === undefined || input.run !== inputs[i - 1]?.run) {
      redraw(state, sharedIndex(layout, "run"), 0, usualNoise.run ** 2);
    }
    redraw(state, sharedIndex(layout, "pairWander"), 0, usualNoise.pairWander ** 2);
    const onsets = Object.fromEntries(
      cells.flatMap((cell) => {
        const { onset } = told(i, cell);
        return onset === undefined ? [] : [[cell, onset]];
      }),
    );
    for (const observation of input.observations) {
      condition(state, rowOf(layout, observation, { onsets }), 0, observation.variance_ppm2);
    }
    return cells.map((cell) => Math.sqrt(projected(state, gainRow(layout, cell, "up")).variance));
  });
}

/** What is told to have changed since the last cast gets a free size; what did not carries over. */
function advance(
  layout: Layout,
  state: Gaussian,
  cell: CellName,
  before: Told | undefined,
  now: Told,
): void {
  const at = (slot: Parameters<typeof cellIndex>[2]) => cellIndex(layout, cell, slot);
  const loosen = (size: number, ...slots: Parameters<typeof cellIndex>[2][]) => {
    const direction = new Float64Array(layout.size);
    for (const slot of slots) direction[at(slot)] = 1;
    widen(state, direction, 0, Math.max(spread.least_ppm, spread.share * Math.abs(size)) ** 2);
  };
  if (before === undefined) {
    redraw(state, at("clean"), 0, prior.clean ** 2);
    redraw(state, at("pressure"), 0, prior.pressure ** 2);
  } else if (moved(before.clean, now.clean)) {
    loosen(now.clean - before.clean, "clean");
  }
  assign(state, at("filmDown"), at("filmUp"), 1, 0);
  assign(state, at("filmUp"), at("filmDown"), 1, 0);
  const arrived = now.filmDown - (before?.filmUp ?? 0);
  if (moved(arrived, 0)) loosen(arrived, "filmDown", "filmUp");
  const caught = now.filmUp - now.filmDown;
  if (moved(caught, 0)) loosen(caught, "filmUp");
}
