// What a cell read as a bottle closed.
import type { ClosureReading } from "../../cast/bottle.js";
import type { ClosureScans } from "./closureScans.js";

/** What a cell read as a bottle closed. */
export interface Closure extends ClosureReading {
  /** Pressure of the readings, dbar. */
  readonly pressure_dbar: number;
  /** Standard uncertainty from noise, swell and what is left of the thermal lag, ppm. */
  readonly uncertainty_ppm: number;
  readonly how: ClosureScans["how"] | "written";
}
