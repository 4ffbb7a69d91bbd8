// The coefficients that the evidence of a cast is explained with, and how an observation sees them.
import type { CellName, LegName } from "../cast/cast.js";
import { spFromCFirstDerivatives } from "../seawater/index.js";
import type { Observation } from "./observation.js";

/**
 * Of each cell:
 * - `clean` its clean gain, the calibration residual, ppm
 * - `filmDown`, `filmUp` the film as the down leg begins and as the up leg ends, ppm; `filmRate` ppm a day
 * - `pressure` its response to pressure, ppm per 1000 dbar
 * - `thermometer` what the thermometer beside it is off by, mK, beyond what sound ones are
 * - `additive` a stray offset, uS/cm
 * - `event` what a cause proposes for this cast
 */
export const cellSlots = [
  "clean",
  "filmDown",
  "filmUp",
  "filmRate",
  "pressure",
  "thermometer",
  "additive",
  "event",
] as const;
export type CellSlot = (typeof cellSlots)[number];

/**
 * Shared by the cells:
 * - `run` the standardisation error of the laboratory run, ppm
 * - `wake` the depth from which the wake brings water into bottles, dbar
 * - `pairWander` of one pair of sensors against the other on this cast, ppm
 * - `thermometers` the difference of the two while sound, mK; `thermometersNow` what it is besides on this cast
 * - `legsWater` what the water of the up leg had that that of the down leg had not, ppm
 * - `deepWater` how far the calm deep water here is from the reference curve, ppm
 */
export const sharedSlots = [
  "run",
  "wake",
  "pairWander",
  "thermometers",
  "thermometersNow",
  "legsWater",
  "deepWater",
] as const;
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

/** Something taken in and shed again: what share of it sat in the cell at a place of the cast. */
export interface Passing {
  readonly cell: CellName;
  /** What tells it from another. */
  readonly of: string;
  /** 0 to 1. */
  readonly share: (leg: LegName, pressure_dbar: number) => number;
}

/** What a proposal holds to have happened where on the cast. */
export interface Course {
  readonly onsets?: Readonly<Partial<Record<CellName, Place>>>;
  readonly passing?: Passing;
}

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
  { onsets = {}, passing }: Course,
): Float64Array {
  const row = new Float64Array(layout.size);
  const { additive, terms, pressure_dbar, line } = observation;
  if (additive !== undefined) {
    row[cellIndex(layout, additive.cell, "additive")] = 1;
    return row;
  }
  if (line === "temperature-pair") {
    for (const { cell, weight } of terms) row[cellIndex(layout, cell, "thermometer")]! += weight;
    row[sharedIndex(layout, "thermometers")] = 1;
    row[sharedIndex(layout, "thermometersNow")] = 1;
    return row;
  }
  const seen = ppmOf(observation);
  for (const { cell, leg, weight } of terms) {
    const see = (slot: CellSlot, ppm: number) => {
      row[cellIndex(layout, cell, slot)]! += weight * ppm;
    };
    see("clean", 1);
    see(filmSlotAt(leg, pressure_dbar, onsets[cell] ?? atTheTurn), 1);
    see("pressure", pressure_dbar / 1000);
    see("thermometer", seen.perMillikelvin);
    see("additive", seen.perMicrosiemens);
    if (passing?.cell === cell) see("event", passing.share(leg, pressure_dbar));
  }
  if (line === "bottles") row[sharedIndex(layout, "run")] = 1;
  row[sharedIndex(layout, "wake")] = observation.perWake_ppm ?? 0;
  if (line === "pair") {
    row[sharedIndex(layout, "pairWander")] = 1;
    // What the thermometers usually differ by is in the gains; what they do on one cast is not.
    row[sharedIndex(layout, "thermometersNow")] = seen.perMillikelvin;
  }
  if (line === "legs") row[sharedIndex(layout, "legsWater")] = 1;
  if (line === "deep-water") row[sharedIndex(layout, "deepWater")] = 1;
  return row;
}

/** What a thermometer off by 1 mK, and an offset of 1 uS/cm, make of a gain in this water, ppm. */
function ppmOf({ water, pressure_dbar }: Observation) {
  if (water === undefined) return { perMillikelvin: 0, perMicrosiemens: 0 };
  const { conductivity_mS_cm: c, temperature_C: t } = water;
  const { dSpDc, dSpDt } = spFromCFirstDerivatives(c, t, pressure_dbar);
  const perMillikelvin = (1e3 * dSpDt) / (c * dSpDc);
  return {
    perMillikelvin: Number.isFinite(perMillikelvin) ? perMillikelvin : 0,
    perMicrosiemens: c > 0 ? 1e3 / c : 0,
  };
}

/** The row of a cell's gain, at atmospheric pressure, as the down leg begins or the up leg ends. */
export function gainRow(layout: Layout, cell: CellName, leg: LegName): Float64Array {
  const row = new Float64Array(layout.size);
  row[cellIndex(layout, cell, "clean")] = 1;
  row[cellIndex(layout, cell, leg === "down" ? "filmDown" : "filmUp")] = 1;
  return row;
}
