// How late and how slowly one cell and its thermometer answered on one cast.
import type { Cast, CellName } from "../cast/cast.js";
import type { Legs } from "../cast/splitLegs.js";
import type { MatchedLegs } from "../evidence/legs/matchLegs.js";
import { type Alignment, alignment } from "./alignment/alignment.js";
import { cellThermalLag, type ThermalLagOnCast } from "./lag/thermalLag.js";

export interface SensorResponse {
  readonly alignment?: Alignment;
  readonly thermalLag?: ThermalLagOnCast;
  /** In plain words, what could not be told and why. */
  readonly notes: readonly string[];
}

/**
 * @param legs    as from `splitLegs`
 * @param matched as from `matchLegs` for the same cell; worked out where absent
 */
export function sensorResponse(
  cast: Cast,
  legs: Legs,
  cell: CellName,
  matched?: MatchedLegs,
): SensorResponse {
  if (cast.columns[cell] === undefined) return { notes: ["the cast has no such cell"] };
  const aligned = alignment(cast, legs, cell);
  const lag = cellThermalLag(cast, legs, cell, matched);
  return {
    ...(aligned.alignment === undefined ? {} : { alignment: aligned.alignment }),
    ...(lag.thermalLag === undefined ? {} : { thermalLag: lag.thermalLag }),
    notes: [...aligned.notes, ...lag.notes],
  };
}
