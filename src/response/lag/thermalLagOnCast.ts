// The thermal lag of the cell on one cast, as far as the cast determines it.
import type { Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import { matchLegs } from "../match/matchLegs.js";
import { type CellLagFit, cellLag } from "./cellLag.js";
import type { CellLag } from "./lagPrior.js";

export interface ThermalLagOnCast {
  /** alpha x tau relative to a usual cell: the size of the lag effect in a steady gradient, as a multiple of the usual. */
  readonly timesUsual: number;
  readonly timesUsualUncertainty: number;
  /** Present if the cast separates the two. */
  readonly parts?: LagParts;
}

export interface LagParts extends CellLag {
  readonly standardUncertainty: CellLag;
  /** Correlation of the errors of alpha and of tau. */
  readonly correlation: number;
}

interface ThermalLagFound {
  readonly thermalLag?: ThermalLagOnCast;
  /** Limits of the result with the reasons, in plain words. */
  readonly notes: readonly string[];
}

/**
 * A lag with a larger uncertainty, in times the usual, is not reported (judgement: a third of the prior standard
 * deviation).
 */
const worst = 1;
/** Layers thicker than this do not separate amplitude from time constant, dbar (judgement: half of tau at 1 dbar/s). */
const thickest_dbar = 4;
/** The time constant is reported if the cast reduces its prior uncertainty to this share, or less (judgement). */
const narrowed = 0.75;

/** @param fitted precomputed by `cellLag`, optional */
export function thermalLagOnCast(
  cast: Cast,
  legs: Legs,
  cell: CellName,
  fitted?: CellLagFit,
): ThermalLagFound {
  if (cast.columns[cell] === undefined) return { notes: ["the cast has no such cell"] };
  if (legs.down.length === 0 || legs.up.length === 0) {
    return { notes: ["no thermal lag: the cast has one leg only"] };
  }
  const fit = fitted ?? cellLag(cast, legs, cell, matchLegs(cast, legs, cell));
  if (!(fit.timesUsualUncertainty < worst)) {
    return {
      notes: ["temperature changes too little, or too evenly, to show the thermal lag of the cell"],
    };
  }
  const notes: string[] = [];
  const { alpha, tau_s, standardUncertainty, correlation, timesUsual, timesUsualUncertainty } = fit;
  if (legs.clock.from === "pressure") {
    notes.push(
      "thermal lag as if lowered at 1 dbar/s: the cast has neither times nor a sample rate",
    );
  }
  const thick = fit.thickness_dbar > thickest_dbar;
  const parted = !thick && legs.clock.from !== "pressure" && fit.tauNarrowed < narrowed;
  if (!parted) {
    notes.push(
      thick
        ? `layers of ${fit.thickness_dbar.toFixed(0)} dbar show how strong the thermal lag is, not how long it lasts`
        : "this cast shows how strong the thermal lag is, not how long it lasts",
    );
  }
  return {
    thermalLag: {
      timesUsual,
      timesUsualUncertainty,
      ...(parted ? { parts: { alpha, tau_s, standardUncertainty, correlation } } : {}),
    },
    notes,
  };
}
