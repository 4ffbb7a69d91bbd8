// The thermal lag of a cell on one cast: the amplitude and time constant that make the two legs agree in temperature and
// salinity [MorisonEtAl1994], [GarauEtAl2011].
import type { Cast, CellName, LegName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import type { MatchedLegs } from "../match/matchLegs.js";
import { fitCellLag } from "./fitCellLag.js";
import type { LagEstimate } from "./lagMoments.js";
import { commonProfile, lagOfLegs } from "./lagOfLegs.js";
import { outerHeat, usualLagAt } from "./lagPrior.js";
import { wallHeatOfLayers } from "./wallHeatOfLayers.js";

/** A known film: the difference up minus down is larger above this pressure by this amount. */
export interface KnownStep {
  readonly ppm: number;
  readonly pressure_dbar: number;
}

/** Present for every cast of two legs; without information it is the prior. */
export interface CellLagFit extends LagEstimate {
  /**
   * Up minus down, ppm, for a lag of `timesUsual` 1 with the fitted time constant at each match, with each leg's own
   * temperatures: `timesUsual` times this is the lag in the differences.
   */
  readonly perTimesUsual_ppm: Float64Array;
  /** Change of that for a time constant longer by its standard uncertainty, ppm. */
  readonly perTau_ppm: Float64Array;
  /**
   * Up minus down, ppm, for heat that the outer parts hold (`outerHeat`). In a steady gradient it is as large as the lag of
   * the wall, or as the usual lag if that is larger.
   */
  readonly outerHeat_ppm: Float64Array;
  /** Thickness of the matched layers. */
  readonly thickness_dbar: number;
}

/**
 * @param matched the legs of the same cell
 * @param step    a known film, excluded from the lag
 * @param thin    precomputed by `thinLayers`, optional
 */
export function cellLag(
  cast: Cast,
  legs: Legs,
  cell: CellName,
  matched: MatchedLegs,
  step?: KnownStep,
  thin = thinLayers(cast, legs),
): CellLagFit {
  const { pressure_dbar, lagAt } = lagsOf(cast, legs, matched);
  const { difference_ppm, ambiguity_ppm } = matched;
  const withoutStep =
    step === undefined
      ? difference_ppm
      : difference_ppm.map((d, i) => (pressure_dbar[i]! < step.pressure_dbar ? d - step.ppm : d));
  const fit = fitCellLag({ pressure_dbar, difference_ppm: withoutStep, ambiguity_ppm }, lagAt);
  const upLessDown = (tau_s: number) => {
    const onLeg = (leg: LegName, pressure: Float64Array) => {
      const layers = thin.of(leg, cell);
      const before = leg === "up" ? thin.of("down", cell) : undefined;
      const lag = wallHeatOfLayers(layers, legs.clock, usualLagAt(tau_s), before);
      return interpolated(layers.pressure_dbar, lag, pressure);
    };
    const down = onLeg("down", matched.pressureDown_dbar);
    return onLeg("up", matched.pressureUp_dbar).map((lag, i) => lag - down[i]!);
  };
  const perTimesUsual_ppm = upLessDown(fit.tau_s);
  const longer = upLessDown(fit.tau_s + fit.standardUncertainty.tau_s);
  // Legs that were corrected before show no lag of the wall. The heat of the outer parts is still in them.
  const size = Math.max(1, fit.timesUsual);
  return {
    ...fit,
    perTimesUsual_ppm,
    perTau_ppm: longer.map((lag, i) => lag - perTimesUsual_ppm[i]!),
    outerHeat_ppm: upLessDown(outerHeat.tau_s).map((lag) => size * lag),
    thickness_dbar: matched.thickness_dbar,
  };
}

interface LagsOfLegs {
  readonly pressure_dbar: Float64Array;
  /** Up minus down that a lag of amplitude 1 makes of each match, ppm; of each time constant computed once. */
  readonly lagAt: (tau_s: number) => Float64Array;
}

/** The same matches are asked for again once a step is known. */
const known = new WeakMap<MatchedLegs, LagsOfLegs>();

function lagsOf(cast: Cast, legs: Legs, matched: MatchedLegs): LagsOfLegs {
  const found = known.get(matched);
  if (found !== undefined) return found;
  const profile = commonProfile(cast, legs, matched);
  const byTau = new Map<number, Float64Array>();
  const lagAt = (tau_s: number) => {
    const lag = byTau.get(tau_s) ?? lagOfLegs(profile, tau_s);
    byTau.set(tau_s, lag);
    return lag;
  };
  const lags = { pressure_dbar: profile.pressure_dbar, lagAt };
  known.set(matched, lags);
  return lags;
}

/** The column at other pressures, in any order; straight between its rising places, constant beyond the ends. */
function interpolated(
  places: Float64Array,
  column: Float64Array,
  pressure: Float64Array,
): Float64Array {
  let j = 0;
  return pressure.map((p) => {
    while (j + 2 < places.length && places[j + 1]! <= p) j++;
    while (j > 0 && places[j]! > p) j--;
    const gap = places[j + 1]! - places[j]!;
    const part = gap > 0 ? Math.min(1, Math.max(0, (p - places[j]!) / gap)) : 0;
    return column[j]! + part * (part > 0 ? column[j + 1]! - column[j]! : 0);
  });
}
