// The scans during which bottles closed, from the bottom stop to the surface, with the stops of the package.

import { bottleStops, stopRule } from "../../cast/bottleStops.js";
import type { Cast } from "../../cast/cast.js";
import { indexOfDeepest } from "../../cast/indexOfDeepest.js";
import { plausiblePressure } from "../../cast/plausiblePressure.js";
import type { ScanClock } from "../../cast/scanClock.js";
import { median } from "../../statistics/robustCentre.js";

/**
 * The bottom stop reaches this far above the deepest scan, dbar, or this share of a shallow cast (common practice, no
 * source): swell puts the deepest scan anywhere within the stop, before or after the bottle closes.
 */
const bottomStop = { dbar: 5, share: 0.1 };
/** The level of a stop is taken over its last seconds: two waves of a common swell (judgement). */
const levelOver_s = 20;

/** A stop of the package on the way up. */
interface Stand {
  /** The last scan before it moved on. */
  readonly end: number;
  readonly pressure_dbar: number;
}

export interface UpScans {
  /** dbar, of all scans of the cast; NaN if impossible. */
  readonly pressure: Float64Array;
  /** s, of all scans of the cast, never falling. */
  readonly seconds: Float64Array;
  /** False if the seconds are guessed from the pressure, as for averaged profiles. */
  readonly timed: boolean;
  /** The first scan of the bottom stop; the last is that of the cast. */
  readonly from: number;
  /** Computed on first use. */
  readonly stands: () => readonly Stand[];
}

export function upScans(cast: Cast, clock: ScanClock): UpScans {
  const { pressure } = plausiblePressure(cast.columns.pressure_dbar);
  const turn = indexOfDeepest(pressure);
  const deepest = pressure[turn] ?? 0;
  const near = deepest - Math.min(bottomStop.dbar, bottomStop.share * deepest);
  let from = turn;
  while (from > 0 && !(pressure[from - 1]! < near)) from--;
  const { seconds, rate_dbar_s } = clock;
  let stands: readonly Stand[] | undefined;
  return {
    pressure,
    seconds,
    timed: clock.from !== "pressure",
    from,
    stands: () => {
      stands ??= findStands(pressure, seconds, from, stopRule(deepest, rate_dbar_s));
      return stands;
    },
  };
}

function findStands(
  pressure: Float64Array,
  seconds: Float64Array,
  from: number,
  rule: ReturnType<typeof stopRule>,
): readonly Stand[] {
  const [own, times] = [pressure.subarray(from), seconds.subarray(from)];
  return bottleStops(own, times, -1, rule).map((stop) => {
    // The detected stop ends when the package is well clear of it. The package left when it was last as deep as the level
    // of the stop.
    let first = stop.to;
    while (first > stop.from && times[stop.to]! - times[first]! < levelOver_s) first--;
    const level = median(own.subarray(first, stop.to + 1));
    let end = stop.to;
    while (end > first && !(own[end]! >= level)) end--;
    return { end: from + end, pressure_dbar: level };
  });
}

/** The last scan at or before a time; -1 before the first. */
export function scanAt(seconds: Float64Array, time_s: number): number {
  let low = 0;
  let high = seconds.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (seconds[middle]! <= time_s) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
