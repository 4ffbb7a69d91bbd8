// The possible events of a simulated cruise, as plain data. Casts are counted from 1, as in their ids. Gains are in ppm of
// conductivity, salinities in PSS-78, and a film makes the gain negative.
import type { CellName, LegName } from "../cast/cast.js";
import type { IntensityName } from "../cast/maintenance.js";

/** Place within a cast where something came. */
export interface PlaceInCast {
  readonly leg: LegName;
  readonly pressure_dbar: number;
}

/** Something enters the cell and stays: oil at the surface, larvae, a shred of jelly. */
export interface FilmStep {
  readonly kind: "film-step";
  readonly cells: readonly CellName[];
  readonly cast: number;
  readonly at: "before-cast" | PlaceInCast;
  /** Negative. */
  readonly ppm: number;
}

/** A living film that grows from cast to cast, in proportion to the time between them. */
export interface FilmGrowth {
  readonly kind: "film-growth";
  readonly cell: CellName;
  /** The first cast before which it has grown; 1 has the effect of 2, because no time precedes the first cast. */
  readonly fromCast: number;
  /** The last cast before which it has grown; to the end of the cruise if absent. */
  readonly untilCast?: number;
  /** Negative. */
  readonly ppmPerDay: number;
}

/** Something enters the cell and goes again by itself within the cast. */
export interface Transient {
  readonly kind: "transient";
  readonly cells: readonly CellName[];
  readonly cast: number;
  readonly at: PlaceInCast;
  /** Negative: the size when it comes. */
  readonly ppm: number;
  /** Distance along the path over which it falls to 1/e, dbar. The rest at the end of the cast is shed on deck. */
  readonly recovery_dbar: number;
}

/** A film is shed before a cast: washed out at the soak or on deck. */
export interface Shed {
  readonly kind: "shed";
  readonly cells: readonly CellName[];
  readonly cast: number;
  /** Share of the film that stays, 0 to 1. */
  readonly retained: number;
}

/** The cell reads wrong by a factor, of either sign, from a cast on: an old calibration, wear, damage. */
export interface CalibrationShift {
  readonly kind: "calibration-shift";
  readonly cell: CellName;
  /** 1: from the start. */
  readonly fromCast: number;
  readonly ppm: number;
}

/** A conducting path outside the cell's bore, or a zero error: added in water and in air. */
export interface AdditiveOffset {
  readonly kind: "additive-offset";
  readonly cell: CellName;
  /** 1: from the start. */
  readonly fromCast: number;
  /** uS/cm, of either sign. */
  readonly microsiemens_cm: number;
}

/** An error of the cell that grows with pressure, throughout the cruise. */
export interface PressureResponse {
  readonly kind: "pressure-response";
  readonly cell: CellName;
  readonly ppmPer1000dbar: number;
}

/** The laboratory is wrong by this much: for the bottles of these casts, or of a run. */
export interface ReferenceOffset {
  readonly kind: "reference-offset";
  /** Numbers of casts, or the label of a laboratory run. */
  readonly of: readonly number[] | string;
  readonly salinity: number;
}

/** The package drifts through a front between the legs: the up leg passes different water. */
export interface Front {
  readonly kind: "front";
  readonly cast: number;
  /** Contrast of salinity in the upper ocean, as a standard deviation over depth. */
  readonly salinity: number;
}

/** A thermometer that is off from a cast on. */
export interface TemperatureError {
  readonly kind: "temperature-error";
  readonly cell: CellName;
  readonly fromCast: number;
  readonly mK: number;
}

/** The heat stored in the cell's wall has a larger, or smaller, effect than usual on a cast. */
export interface ThermalLagFactor {
  readonly kind: "thermal-lag";
  readonly cells: readonly CellName[];
  readonly cast: number;
  /** Factor on the amplitude; 1 is the usual. */
  readonly factor: number;
}

/** A pump that fails or a kinked line: the response of the cell is late and noisy. */
export interface FlowLoss {
  readonly kind: "flow-loss";
  readonly cells: readonly CellName[];
  readonly cast: number;
  /** Remaining share of the usual flow, above 0, below 1. */
  readonly flow: number;
}

/**
 * Conductivity is later than temperature, by a part of a scan or more, from a cast on. Reasons: a line of another length, a
 * lost setting, water held up on its way to the cell. For time-series sampling.
 */
export interface Misalignment {
  readonly kind: "misalignment";
  readonly cells: readonly CellName[];
  readonly fromCast: number;
  /** To the end of the cruise if absent. */
  readonly untilCast?: number;
  /** Positive if conductivity is later; several add up. */
  readonly seconds: number;
}

/** A cleaning, entered in the maintenance record. */
export interface Cleaning {
  readonly kind: "cleaning";
  readonly afterCast: number;
  /** All cells of the package if absent. */
  readonly cells?: readonly CellName[];
  readonly intensity: Exclude<IntensityName, "exchange">;
  /** Share of the film that stays, 0 to 1: the truth, not in the record. */
  readonly retained: number;
}

/** The reading of a cell in air on deck after a cast, written down by hand: an entry of the maintenance record. */
export interface ReadingInAir {
  readonly kind: "air-reading";
  readonly afterCast: number;
  readonly cell: CellName;
  readonly rinsed: boolean;
  readonly drained: boolean;
  /** Contribution of water left in the cell, uS/cm: the truth, not in the record. 0 if absent. */
  readonly water_microsiemens_cm?: number;
}

/** A bottle that leaked on its way up: this share of its water came from near the surface. */
export interface LeakingBottle {
  readonly kind: "leak";
  readonly cast: number;
  /** Counted from 1, the deepest. */
  readonly bottle: number;
  /** Share of surface water, 0 to 1. */
  readonly share: number;
}

/** A bottle that closed at the stop of another one. */
export interface MisTrip {
  readonly kind: "mis-trip";
  readonly cast: number;
  /** Counted from 1, the deepest. */
  readonly bottle: number;
  /** The bottle of the same cast at whose stop it closed. */
  readonly closedWith: number;
}

export type SimulatedEvent =
  | FilmStep
  | FilmGrowth
  | Transient
  | Shed
  | CalibrationShift
  | AdditiveOffset
  | PressureResponse
  | ReferenceOffset
  | Front
  | TemperatureError
  | ThermalLagFactor
  | FlowLoss
  | Misalignment
  | Cleaning
  | ReadingInAir
  | LeakingBottle
  | MisTrip;
