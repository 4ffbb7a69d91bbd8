// What is true of one cell on one cast.
import type { LegName } from "../cast/cast.js";
import type { CauseName } from "../causes/index.js";
import type { PlaceInCast } from "./events.js";

/** Something that came within the cast and stayed. */
export interface FilmWithin {
  readonly at: PlaceInCast;
  readonly ppm: number;
  /** Present where it goes again: path over which it falls to 1/e, dbar. */
  readonly recovery_dbar?: number;
}

export interface CellTruth {
  /** The cell's gain when clean, at 0 dbar, ppm. */
  readonly cleanGain_ppm: number;
  /** Ppm per 1000 dbar. */
  readonly pressureResponse: number;
  /** Added to whatever it reads, in water and in air, uS/cm; not part of the gain. */
  readonly additiveOffset_microsiemens_cm: number;
  /** Error of its thermometer, mK; not part of the gain. */
  readonly temperatureError_mK: number;
  /** Film as the down leg begins and as the up leg ends, ppm. */
  readonly film: Readonly<Record<LegName, number>>;
  /** Gain there, at 0 dbar, ppm: clean gain plus film. */
  readonly gain: Readonly<Record<LegName, number>>;
  /** In the order the package came by them. */
  readonly within: readonly FilmWithin[];
  /** Where the first of those came. */
  readonly onset?: PlaceInCast;
  readonly deepest_dbar: number;
  /** All that is the matter, the one that a verdict should name first; never empty. */
  readonly causes: readonly CauseName[];
  readonly cause: CauseName;
}
