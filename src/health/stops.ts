// Stops of the package, from the gaps that they leave in the legs.
import type { WaterPart } from "./waterPart.js";

export interface Stop {
  /** First scan of the stop and the one after its last. */
  readonly from: number;
  readonly to: number;
}

/** Long enough for the salinity to settle, s (judgement: three time constants of the usual lag). */
const least_s = 30;
/** A gap with a larger movement of the package is not a stop, dbar: it includes slowing down and starting (judgement). */
const still_dbar = 5;

/** This many scans without a gap are skipped at a time (judgement: speed). */
const together = 100;

/** Stops of at least 30 s on either leg, in order of time. */
export function stopsOf({ legs, columns, seconds }: WaterPart): readonly Stop[] {
  const pressure = columns.pressure_dbar;
  const stops: Stop[] = [];
  for (const scans of [legs.down, legs.up]) {
    for (let k = 1; k < scans.length; k++) {
      if (scans[k + together]! - scans[k - 1]! === together + 1) {
        k += together;
        continue;
      }
      const last = scans[k - 1]!;
      const next = scans[k]!;
      if (next - last < 2 || seconds[next]! - seconds[last]! < least_s) continue;
      if (Math.abs(pressure[next]! - pressure[last]!) < still_dbar) {
        stops.push({ from: last + 1, to: next });
      }
    }
  }
  return stops;
}
