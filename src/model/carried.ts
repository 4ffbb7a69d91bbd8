// Results of earlier cruises for a cell, as of the start of this cruise.
import type { CellName } from "../cast/cast.js";
import type { Beginning } from "./cause.js";

interface Known {
  readonly mean: number;
  readonly sd: number;
}

export interface Carried {
  /** Probability that the cell is still in the state that was seen: no unrecorded calibration, repair or knock since. */
  readonly probability: number;
  /** Clean gain, ppm; absent if the cell was calibrated since. */
  readonly clean?: Known;
  /** Response to pressure, ppm per 1000 dbar. */
  readonly pressure: Known;
  /** A film that it ended the last cruise with and that nobody is known to have cleaned off, ppm; with the chance that it is still there. */
  readonly film?: Known & { readonly probability: number };
}

export type CarriedByCell = Readonly<Partial<Record<CellName, Carried>>>;

/** A beginning of a cell that is still in the state that was seen. Its prior includes the probability of that. */
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
