// The range of a sensor over a stretch of scans, without its noise and spikes.
import { quantile } from "../statistics/robustCentre.js";
import type { Sensor } from "./finding.js";
import { plausibleFor } from "./plausibleFor.js";

/** From about this many scans; this share is excluded at either end (judgement: outliers). */
const sample = 200;
const tail = 0.03;

/** Difference of the 97 % and the 3 % quantile; 0 without possible readings. */
export function rangeOver(column: Float64Array, sensor: Sensor, from: number, to: number): number {
  const holds = plausibleFor(sensor);
  const stride = Math.max(1, Math.floor((to - from + 1) / sample));
  const values: number[] = [];
  for (let i = from; i <= to; i += stride) {
    if (holds(column[i]!)) values.push(column[i]!);
  }
  const spread = quantile(values, 1 - tail) - quantile(values, tail);
  return Number.isFinite(spread) ? spread : 0;
}
