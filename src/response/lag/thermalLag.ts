// The cell's thermal lag on one cast: the amplitude and time constant that bring the two legs together in
// temperature and salinity [MorisonEtAl1994], [GarauEtAl2011].
import type { Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import { type MatchedLegs, matchLegs } from "../../evidence/legs/matchLegs.js";
import { fitCellLag } from "./fitCellLag.js";
import { commonProfile, lagOfLegs } from "./lagOfLegs.js";
import type { CellLag } from "./usualLag.js";

export interface ThermalLagOnCast {
  /** alpha x tau over that of a usual cell: what the lag makes of a steady gradient, as a share of the usual. */
  readonly timesUsual: number;
  readonly timesUsualUncertainty: number;
  /** Present where the cast tells the two apart. */
  readonly parts?: LagParts;
}

export interface LagParts extends CellLag {
  readonly standardUncertainty: CellLag;
  /** Between the errors of alpha and of tau. */
  readonly correlation: number;
}

export interface ThermalLagFound {
  readonly thermalLag?: ThermalLagOnCast;
  readonly notes: readonly string[];
}

/** Known worse than this, in times the usual, it is not known (judgement). */
const worst = 1;
/** Layers thicker than this do not tell amplitude from time constant, dbar (judgement). */
const thickest_dbar = 4;
/** The time constant is told where the cast leaves this share of the uncertainty there was before, or less. */
const narrowed = 0.75;

/** @param matched as from `matchLegs`; worked out here where absent */
export function cellThermalLag(
  cast: Cast,
  legs: Legs,
  cell: CellName,
  matched?: MatchedLegs,
): ThermalLagFound {
  if (cast.columns[cell] === undefined) return { notes: ["the cast has no such cell"] };
  if (legs.down.length === 0 || legs.up.length === 0) {
    return { notes: ["thermal lag not looked for: the cast has one leg only"] };
  }
  const own = matched ?? matchLegs(cast, legs, cell);
  const profile = commonProfile(cast, legs, own);
  const fit = fitCellLag(profile.pressure_dbar, own.difference_ppm, (tau) =>
    lagOfLegs(profile, tau),
  );
  if (fit === undefined || !(fit.timesUsualUncertainty < worst)) {
    return {
      notes: ["temperature changes too little, or too evenly, to tell the thermal lag of the cell"],
    };
  }
  const notes: string[] = [];
  const { alpha, tau_s, standardUncertainty, correlation, timesUsual, timesUsualUncertainty } = fit;
  if (legs.clock.from === "pressure") {
    notes.push(
      "thermal lag as if lowered at 1 dbar/s: the cast has neither times nor a sample rate",
    );
  }
  const thick = own.thickness_dbar > thickest_dbar;
  const parted = !thick && legs.clock.from !== "pressure" && fit.tauNarrowed < narrowed;
  if (!parted) {
    notes.push(
      thick
        ? `layers of ${own.thickness_dbar.toFixed(0)} dbar tell how strong the thermal lag is, not how long it lasts`
        : "this cast tells how strong the thermal lag is, not how long it lasts",
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
