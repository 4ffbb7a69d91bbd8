// The water that bottles close on. It comes from below on the up leg; some bottles leak or close at another stop.
// Numbers without a source are judgement: bottles from well flushed to hardly flushed.
import type { RandomStream } from "../random.js";
import { between, betweenLog, happens } from "./draws.js";
import { hourOf, type PlannedCast } from "./plan.js";
import type { WaterOverTime } from "./water.js";

/** How bottles are flushed. Drawn once a cruise. */
interface Flushing {
  /** Depth below the stop that the bottle's water comes from on arrival, dbar [Codispoti1998]. */
  readonly carried_dbar: number;
  /** Time constant of flushing during the stop, s. */
  readonly flush_s: number;
  /** The part of it that remains after a long stop, dbar. */
  readonly always_dbar: number;
  readonly leaks: number;
  readonly misTrips: number;
}

export interface ClosedBottle {
  readonly scan: number;
  /** True salinity of the sample, PSS-78. */
  readonly salinity: number;
  readonly fault?: "leaking" | "mis-trip";
}

export function drawFlushing(random: RandomStream): Flushing {
  return {
    carried_dbar: betweenLog(random, 2.5, 10),
    flush_s: between(random, 18, 45),
    always_dbar: between(random, 0, 0.6),
    leaks: betweenLog(random, 0.002, 0.03),
    misTrips: betweenLog(random, 0.001, 0.012),
  };
}

/** Depth below the bottle from which its water comes after a stop of `stood_s`, dbar. */
export function carriedFrom({ carried_dbar, flush_s, always_dbar }: Flushing, stood_s: number) {
  return always_dbar + carried_dbar * Math.exp(-stood_s / flush_s);
}

/** In the order of closure. */
export function closeBottles(
  random: RandomStream,
  flushing: Flushing,
  cast: PlannedCast,
  water: WaterOverTime,
): readonly ClosedBottle[] {
  const { closures, pressure } = cast.journey;
  return closures.map(({ scan, stood_s }, k) => {
    const own = random.split(k);
    const carried = carriedFrom(flushing, stood_s) * Math.exp(0.3 * own.normal());
    const closedAt = (at: number) => water.salinity(pressure[at]! + carried, hourOf(cast, at));
    if (happens(own, flushing.misTrips)) {
      // It closed at the next stop; the last bottle closed one stop early.
      const wrong = closures[k + 1] ?? closures[k - 1] ?? closures[k]!;
      return { scan, salinity: closedAt(wrong.scan), fault: "mis-trip" };
    }
    const salinity = closedAt(scan);
    if (happens(own, flushing.leaks)) {
      const above = water.salinity(pressure[scan]! * between(own, 0, 0.7), hourOf(cast, scan));
      return {
        scan,
        salinity: salinity + betweenLog(own, 0.02, 0.5) * (above - salinity),
        fault: "leaking",
      };
    }
    return { scan, salinity };
  });
}
