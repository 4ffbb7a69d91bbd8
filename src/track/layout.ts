// The state vector of this library: the cells, and the errors that observations share.
import type { CellName } from "../cast/cast.js";
import { sharedErrors } from "../evidence/lines.js";
import { certainZero, type Gaussian, redraw } from "../model/gaussian.js";
import { type Layout, layoutFor, sharedIndex } from "../model/layout.js";

export function layoutOf(cells: readonly CellName[]): Layout {
  return layoutFor(cells, sharedErrors);
}

/** The prior state before any evidence. */
export function startOf(layout: Layout): Gaussian {
  const state = certainZero(layout.size);
  for (const { name, prior } of layout.sharedErrors) {
    redraw(state, sharedIndex(layout, name), prior?.mean ?? 0, (prior?.sd ?? 0) ** 2);
  }
  return state;
}
