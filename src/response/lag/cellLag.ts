// The cell's thermal lag on one cast: the amplitude and time constant that bring the two legs together in
// temperature and salinity [MorisonEtAl1994], [GarauEtAl2011].
import type { Cast } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import type { MatchedLegs } from "../match/matchLegs.js";
import { fitCellLag } from "./fitCellLag.js";
import type { LagEstimate } from "./lagMoments.js";
import { commonProfile, lagOfLegs } from "./lagOfLegs.js";
import { usualLag } from "./usualLag.js";

/** A film that is known to have come: the difference up minus down is this much more above this pressure than below. */
export interface KnownStep {
  readonly ppm: number;
  readonly pressure_dbar: number;
}

/** Present for every cast of two legs; where the cast does not tell, it is what was known beforehand. */
export interface CellLagFit extends LagEstimate {
  /**
   * Up minus down, ppm, that a lag of `timesUsual` 1 with the fitted time constant makes of each match: `timesUsual`
   * times this is the lag in the differences.
   */
  readonly perTimesUsual_ppm: Float64Array;
  /** Thickness of the layers that were matched. */
  readonly thickness_dbar: number;
}

/** @param step is not taken for lag */
export function cellLag(
  cast: Cast,
  legs: Legs,
  matched: MatchedLegs,
  step?: KnownStep,
): CellLagFit {
  const profile = commonProfile(cast, legs, matched);
  const { pressure_dbar } = profile;
  const { difference_ppm, ambiguity_ppm } = matched;
  const withoutStep =
    step === undefined
      ? difference_ppm
      : difference_ppm.map((d, i) => (pressure_dbar[i]! < step.pressure_dbar ? d - step.ppm : d));
  const fit = fitCellLag({ pressure_dbar, difference_ppm: withoutStep, ambiguity_ppm }, (tau_s) =>
    lagOfLegs(profile, tau_s),
  );
  const alpha = (usualLag.alpha * usualLag.tau_s) / fit.tau_s;
  return {
    ...fit,
    perTimesUsual_ppm: lagOfLegs(profile, fit.tau_s).map((lag) => alpha * lag),
    thickness_dbar: matched.thickness_dbar,
  };
}
