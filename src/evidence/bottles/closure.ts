// The reading of a cell at a bottle closure.
import type { ClosureReading } from "../../cast/bottle.js";
import type { ClosureScans } from "./closureScans.js";

/** The reading of a cell at a bottle closure. */
export interface Closure extends ClosureReading {
  /** Pressure of the readings, dbar. */
  readonly pressure_dbar: number;
  /** Standard uncertainty from noise, swell and the remaining thermal lag, ppm. */
  readonly uncertainty_ppm: number;
  /** Effect of heat in the outer parts of the cell, at the size of `CellLagFit.outerHeat_ppm`. */
  readonly outerHeat_ppm: number;
  readonly how: ClosureScans["how"] | "written";
}
