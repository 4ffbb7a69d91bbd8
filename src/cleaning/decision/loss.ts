// Expected loss of each intensity, shown so that a person sees how close the choice was. The rule (choose.ts) uses it if no
// cleaning meets the confidence required.
import type { IntensityName } from "../../cast/maintenance.js";
import type { Alternative } from "./advice.js";

/** Prices in minutes of ship's time. */
export interface Costs {
  readonly castOutsideTarget: number;
  /** Of one minute of hands-on work between stations. */
  readonly minuteOfWork: number;
  /** What a cleaning takes out of the cell, or of what is known of it. */
  readonly wear: Readonly<Record<IntensityName, number>>;
  /** Of a deep clean of a cell that had nothing that cleaning mends. */
  readonly deepCleanForNothing: number;
}

/** Judgement, all of it; a ship sets its own. */
export const defaultCosts: Costs = {
  // A deep station is about four hours; a cast outside the target can often be corrected, at worst is repeated.
  castOutsideTarget: 240,
  // The watch is aboard anyhow; the ship waits only where the work does not fit, which `fits` says.
  minuteOfWork: 0.25,
  wear: {
    rinse: 0,
    wash: 1,
    // Detergent standing in the cell ages the electrodes a little.
    soak: 3,
    disinfect: 6,
    // Acid can move the cell constant: bottles are needed to trust it again.
    descale: 30,
    // The spare's clean gain is to be learnt anew.
    exchange: 45,
  },
  // Besides the wear: the record then shows a cleaning that did nothing, and the true cause waits a cast longer.
  deepCleanForNothing: 15,
};

/** What a cleaning does to one cell, as probabilities. */
interface Odds {
  /** The film left is within the target at the next station. */
  readonly withinTarget: number;
  /** The film is beyond the target and the cleaning does not work: it is still there at the cast after the next. */
  readonly stays: number;
  /** There is something that cleaning mends. */
  readonly mendable: number;
}

/**
 * Two casts are counted: the next, and the one after it where the cleaning did not work. By then a film that
 * was only thinned is cleaned again.
 * @param minutes hands-on
 * @returns expected cost, minutes of ship's time
 */
export function expectedLoss(
  { intensity, minutes, deep }: Pick<Alternative, "intensity" | "minutes"> & { deep: boolean },
  { withinTarget, stays, mendable }: Odds,
  costs: Costs,
): number {
  const forNothing = deep ? costs.deepCleanForNothing * (1 - mendable) : 0;
  return (
    costs.castOutsideTarget * (1 - withinTarget + stays) +
    costs.minuteOfWork * minutes +
    costs.wear[intensity] +
    forNothing
  );
}
