// Expected loss of each intensity, shown so that a person sees how close the choice was. The rule (choose.ts) uses it if no
// cleaning meets the required confidence.
import type { IntensityName } from "../../cast/maintenance.js";
import type { Alternative } from "./advice.js";

/** Prices in minutes of ship's time. */
export interface Costs {
  readonly castOutsideTarget: number;
  /** Price of one minute of hands-on work between stations. */
  readonly minuteOfWork: number;
  /** Price of the wear of the cell, or of the lost knowledge about it. */
  readonly wear: Readonly<Record<IntensityName, number>>;
  /** Price of a deep clean of a cell that did not need one. */
  readonly needlessDeepClean: number;
}

/** All judgement; a ship can set its own. */
export const defaultCosts: Costs = {
  // A deep station takes about four hours; a cast outside the target can often be corrected, at worst it is repeated.
  castOutsideTarget: 240,
  // The watch is aboard in any case; the ship waits only if the work does not fit, which `fits` shows.
  minuteOfWork: 0.25,
  wear: {
    rinse: 0,
    wash: 1,
    // Detergent that stands in the cell ages the electrodes slightly.
    soak: 3,
    disinfect: 6,
    // Acid can change the cell constant: bottles are needed to trust it again.
    descale: 30,
    // The clean gain of the spare must be estimated again.
    exchange: 45,
  },
  // Beside the wear: the record then shows a cleaning without effect, and the true cause is found one cast later.
  needlessDeepClean: 15,
};

/** The effect of a cleaning on one cell, as probabilities. */
interface Odds {
  /** The remaining film is within the target at the next station. */
  readonly withinTarget: number;
  /** The film is beyond the target and the cleaning fails, so it is still there at the cast after the next. */
  readonly stays: number;
  /** The cell has a problem that cleaning removes. */
  readonly removable: number;
}

/**
 * Two casts are counted: the next, and also the one after it if the cleaning failed. By then a film that was only reduced
 * is cleaned again.
 * @param minutes hands-on
 * @returns expected cost, minutes of ship's time
 */
export function expectedLoss(
  { intensity, minutes, deep }: Pick<Alternative, "intensity" | "minutes"> & { deep: boolean },
  { withinTarget, stays, removable }: Odds,
  costs: Costs,
): number {
  const needless = deep ? costs.needlessDeepClean * (1 - removable) : 0;
  return (
    costs.castOutsideTarget * (1 - withinTarget + stays) +
    costs.minuteOfWork * minutes +
    costs.wear[intensity] +
    needless
  );
}
