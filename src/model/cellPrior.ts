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
  /** Film at the end of the last cruise without a recorded cleaning since, ppm; and the probability that it is still in the cell. */
  readonly film?: Normal & { readonly probability: number };
}

export type CellPriors = Readonly<Partial<Record<CellName, CellPrior>>>;

/** The initial state of a cell that has not changed since the last cruise. Its prior includes the probability of that. */
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
