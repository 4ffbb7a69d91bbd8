// What earlier cruises taught of a cell, as it stands when this cruise begins.
import type { CellName } from "../cast/cast.js";
import type { Beginning } from "./cause.js";

interface Known {
  readonly mean: number;
  readonly sd: number;
}

export interface Carried {
  /** That the cell is still the one that was seen: no calibration, repair or knock since that nobody wrote down. */
  readonly probability: number;
  /** Clean gain, ppm; absent where it was calibrated since. */
  readonly clean?: Known;
  /** Response to pressure, ppm per 1000 dbar. */
  readonly pressure: Known;
  /** A film that it ended the last cruise with and that nobody is known to have cleaned off, ppm; with the chance that it is still there. */
  readonly film?: Known & { readonly probability: number };
}

export type CarriedByCell = Readonly<Partial<Record<CellName, Carried>>>;

/** A beginning of a cell that is still the one that was seen; its prior is for that too. */
export function asCarried(
  beginning: Beginning,
  { probability, clean, pressure }: Carried,
): Beginning {
  return {
    ...beginning,
    prior: beginning.prior * probability,
    ...(clean === undefined ? {} : { cleanMean: clean.mean, cleanSd: clean.sd }),
    pressureMean: pressure.mean,
    pressureSd: pressure.sd,
  };
}
