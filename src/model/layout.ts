// The state vector: the coefficients that explain the evidence of a cast, and the index of each.
import type { CellName } from "../cast/cast.js";
import type { SharedError } from "./sharedError.js";

/**
 * Coefficients of each cell:
 * - `clean` its clean gain, the calibration residual, ppm; `cleanRate` its drift, ppm a day
 * - `filmDown`, `filmUp` the film at the start of the down leg and at the end of the up leg, ppm; `filmRate` its growth,
 *   ppm a day
 * - `pressure` its response to pressure, ppm per 1000 dbar
 * - `thermometer` the error of its thermometer, mK
 * - `offset` its additive offset, uS/cm
 * - `event` a new event that a cause proposes for this cast, ppm
 */
const cellSlots = [
  "clean",
  "cleanRate",
  "filmDown",
  "filmUp",
  "filmRate",
  "pressure",
  "thermometer",
  "offset",
  "event",
] as const;
export type CellSlot = (typeof cellSlots)[number];

/** The slots of every cell come first, then one slot for each shared error. */
export interface Layout {
  readonly cells: readonly CellName[];
  readonly sharedErrors: readonly SharedError[];
  readonly size: number;
}

/** @throws RangeError if two shared errors have the same name */
export function layoutFor(
  cells: readonly CellName[],
  sharedErrors: readonly SharedError[],
): Layout {
  const names = sharedErrors.map(({ name }) => name);
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice !== undefined)
    throw new RangeError(`shared errors have names of their own, found two called ${twice}`);
  return { cells, sharedErrors, size: cells.length * cellSlots.length + sharedErrors.length };
}

/** @throws RangeError if the layout has no such cell */
export function cellIndex({ cells }: Layout, cell: CellName, slot: CellSlot): number {
  const own = cells.indexOf(cell);
  if (own < 0) throw new RangeError(`expected one of ${cells.join(", ")}, found ${cell}`);
  return own * cellSlots.length + cellSlots.indexOf(slot);
}

/** @throws RangeError if no line of evidence declares such an error */
export function sharedIndex({ cells, sharedErrors }: Layout, name: string): number {
  const own = sharedErrors.findIndex((error) => error.name === name);
  if (own < 0) throw new RangeError(`no line of evidence declares a shared error ${name}`);
  return cells.length * cellSlots.length + own;
}
