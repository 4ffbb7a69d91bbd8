// The truth for one cell on one cast.
import type { LegName } from "../cast/cast.js";
import type { CauseName } from "../causes/index.js";
import type { PlaceInCast } from "./events.js";

/** Something that came within the cast and stayed. */
export interface FilmWithin {
  readonly at: PlaceInCast;
  readonly ppm: number;
  /** Present if it goes again: distance along the path over which it falls to 1/e, dbar. */
  readonly recovery_dbar?: number;
}

export interface CellTruth {
  /** The cell's clean gain at 0 dbar, ppm. */
  readonly cleanGain_ppm: number;
  /** Unit: ppm per 1000 dbar. */
  readonly pressureResponse: number;
  /** Additive error of its readings, in water and in air, uS/cm; not part of the gain. */
  readonly additiveOffset_microsiemens_cm: number;
  /** Error of its thermometer, mK; not part of the gain. */
  readonly temperatureError_mK: number;
  /** Film at the start of the down leg and at the end of the up leg, ppm. */
  readonly film: Readonly<Record<LegName, number>>;
  /** Gain there, at 0 dbar, ppm: clean gain plus film. */
  readonly gain: Readonly<Record<LegName, number>>;
  /** In the order along the path. */
  readonly within: readonly FilmWithin[];
  /** Place of the first of those. */
  readonly onset?: PlaceInCast;
  readonly deepest_dbar: number;
  /** All true causes, first the one that a verdict should name; never empty. */
  readonly causes: readonly CauseName[];
  readonly cause: CauseName;
}
