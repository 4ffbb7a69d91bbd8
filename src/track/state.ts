// The coefficients that the evidence of a cast is explained with, and how an observation sees them.
//
// Per cell: the clean gain (its calibration residual), the film as the down leg begins and as the up
// leg ends, the rate at which the film grows, and a response to pressure. Shared: the standardisation
// error of the laboratory run, the depth from which the wake brings water into bottles, the wander of one pair of sensors against the other on this cast, and what the
// water of the up leg had that the water of the down leg had not.
import type { CellName, LegName } from "../cast/cast.js";
import type { Observation } from "../evidence/evidence.js";

/** Units: ppm; filmRate ppm a day; pressure ppm per 1000 dbar. `event` is what a cause proposes. */
export const cellSlots = ["clean", "filmDown", "filmUp", "filmRate", "pressure", "event"] as const;
export type CellSlot = (typeof cellSlots)[number];
export const sharedSlots = ["run", "wake", "pairWander", "water"] as const;
export type SharedSlot = (typeof sharedSlots)[number];

export interface Layout {
  readonly cells: readonly CellName[];
  readonly size: number;
}

export function layoutFor(cells: readonly CellName[]): Layout {
  return { cells, size: cells.length * cellSlots.length + sharedSlots.length };
}

export function cellIndex({ cells }: Layout, cell: CellName, slot: CellSlot): number {
  return cells.indexOf(cell) * cellSlots.length + cellSlots.indexOf(slot);
}

export function sharedIndex({ size }: Layout, slot: SharedSlot): number {
  return size - sharedSlots.length + sharedSlots.indexOf(slot);
}

/** Where within a cast a film came. */
export interface Place {
  readonly leg: LegName;
  readonly pressure_dbar: number;
}

/** With no better knowledge a film that came within the cast came as it turned. */
export const atTheTurn: Place = { leg: "up", pressure_dbar: Number.POSITIVE_INFINITY };

/** Whether water at this place was measured before or after the film came. */
export function filmSlotAt(leg: LegName, pressure_dbar: number, onset: Place): CellSlot {
  if (leg !== onset.leg) return leg === "down" ? "filmDown" : "filmUp";
  const reached =
    leg === "down" ? pressure_dbar >= onset.pressure_dbar : pressure_dbar <= onset.pressure_dbar;
  return reached ? "filmUp" : "filmDown";
}

/** The row of weights with which an observation sees the coefficients. */
export function rowOf(
  layout: Layout,
  observation: Observation,
  onsets: Readonly<Partial<Record<CellName, Place>>>,
): Float64Array {
  const row = new Float64Array(layout.size);
  for (const { cell, leg, weight } of observation.terms) {
    const { pressure_dbar } = observation;
    row[cellIndex(layout, cell, "clean")]! += weight;
    row[cellIndex(layout, cell, filmSlotAt(leg, pressure_dbar, onsets[cell] ?? atTheTurn))]! +=
      weight;
    row[cellIndex(layout, cell, "pressure")]! += (weight * pressure_dbar) / 1000;
  }
  if (observation.line === "bottles") row[sharedIndex(layout, "run")] = 1;
  row[sharedIndex(layout, "wake")] = observation.perWake_ppm ?? 0;
  if (observation.line === "pair") row[sharedIndex(layout, "pairWander")] = 1;
  if (observation.line === "legs") row[sharedIndex(layout, "water")] = 1;
  return row;
}

/** The row of a cell's gain, at atmospheric pressure, as the down leg begins or the up leg ends. */
export function gainRow(layout: Layout, cell: CellName, leg: LegName): Float64Array {
  const row = new Float64Array(layout.size);
  row[cellIndex(layout, cell, "clean")] = 1;
  row[cellIndex(layout, cell, leg === "down" ? "filmDown" : "filmUp")] = 1;
  return row;
}
