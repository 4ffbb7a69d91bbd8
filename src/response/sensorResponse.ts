// Delay and slowness of the response of one cell and its thermometer on one cast.
import type { Cast, CellName } from "../cast/cast.js";
import type { Legs } from "../cast/splitLegs.js";
import { type Alignment, alignment } from "./alignment/alignment.js";
import type { CellLagFit } from "./lag/cellLag.js";
import { type ThermalLagOnCast, thermalLagOnCast } from "./lag/thermalLagOnCast.js";

export interface SensorResponse {
  readonly alignment?: Alignment;
  readonly thermalLag?: ThermalLagOnCast;
  /** Limits of the result with the reasons, in plain words. */
  readonly notes: readonly string[];
}

/**
 * The delay of conductivity and the thermal lag of a cell on one cast.
 * @param legs as from `splitLegs`
 * @param lag  of the same cell, precomputed by `cellLag`; optional
 */
export function sensorResponse(
  cast: Cast,
  legs: Legs,
  cell: CellName,
  lag?: CellLagFit,
): SensorResponse {
  if (cast.columns[cell] === undefined) return { notes: ["the cast has no such cell"] };
  const aligned = alignment(cast, legs, cell);
  const thermal = thermalLagOnCast(cast, legs, cell, lag);
  return {
    ...(aligned.alignment === undefined ? {} : { alignment: aligned.alignment }),
    ...(thermal.thermalLag === undefined ? {} : { thermalLag: thermal.thermalLag }),
    notes: [...aligned.notes, ...thermal.notes],
  };
}
