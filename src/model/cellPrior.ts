// Results of earlier cruises for a cell, as of the start of this cruise.
import type { CellName } from "../cast/cast.js";
import type { InitialState } from "./cause.js";

interface Normal {
  readonly mean: number;
  readonly sd: number;
}

export interface CellPrior {
  /** Probability that the cell is still in the state that was seen: no unrecorded calibration, repair or knock since. */
  readonly probability: number;
  /** Clean gain, ppm; absent if the cell was calibrated since. */
  readonly clean?: Normal;
  /** Response to pressure, ppm per 1000 dbar. */
  readonly pressure: Normal;
  /** A film that it ended the last cruise with and that nobody is known to have cleaned off, ppm; with the chance that it is still there. */
  readonly film?: Normal & { readonly probability: number };
}

export type CellPriors = Readonly<Partial<Record<CellName, CellPrior>>>;

/** A beginning of a cell that is still in the state that was seen. Its prior includes the probability of that. */
export function withCellPrior(
  beginning: InitialState,
  { probability, clean, pressure }: CellPrior,
): InitialState {
  return {
    ...beginning,
    prior: beginning.prior * probability,
    ...(clean === undefined ? {} : { cleanMean: clean.mean, cleanSd: clean.sd }),
    pressureMean: pressure.mean,
    pressureSd: pressure.sd,
  };
}
