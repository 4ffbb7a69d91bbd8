// Stops of the package, for bottles or any other reason. The progress of the leg decides, not the speed of each scan, so
// that heave does not hide a stop.

export interface StopRule {
  /** A stop lasts at least this long, s. */
  readonly least_s: number;
  /** Most progress of the leg during a stop, dbar. */
  readonly within_dbar: number;
}

/** Longer than two waves of a common swell; shorter on a short leg (common practice, no source). */
const longest_s = 15;
const shortest_s = 3;
const shareOfLeg = 0.25;
/** A package slower than this share of the usual rate is standing. */
const standing = 0.15;
const most_dbar = 1;

/** The rule for a cast whose legs span `range_dbar` at a usual rate of `rate_dbar_s`. */
export function stopRule(range_dbar: number, rate_dbar_s: number): StopRule {
  const leg_s = range_dbar / rate_dbar_s;
  const least_s = Math.max(shortest_s, Math.min(longest_s, shareOfLeg * leg_s));
  return { least_s, within_dbar: Math.min(most_dbar, standing * rate_dbar_s * least_s) };
}

interface LegStop {
  /** First and last scan, both included, as positions in the leg. */
  readonly from: number;
  readonly to: number;
  /** Progress of the leg at the stop, dbar. */
  readonly reached_dbar: number;
}

/**
 * The stops of one leg, in order.
 * @param pressure  dbar, of the leg's scans in order of time
 * @param seconds   one for each scan, never falling
 * @param direction +1 on the way down, -1 on the way up
 */
export function bottleStops(
  pressure: Float64Array,
  seconds: Float64Array,
  direction: 1 | -1,
  { least_s, within_dbar }: StopRule,
): readonly LegStop[] {
  const stops: { from: number; to: number; reached_dbar: number }[] = [];
  // Progress in the leg's direction at scan i, and the first scan beyond the stop.
  let reached = Number.NEGATIVE_INFINITY;
  let end = 0;
  for (let i = 0; i < pressure.length; i++) {
    const here = direction * pressure[i]!;
    if (here > reached) reached = here;
    while (end < pressure.length) {
      const there = direction * pressure[end]!;
      if (there - reached >= within_dbar) break;
      end++;
    }
    if (seconds[end - 1]! - seconds[i]! < least_s) continue;
    const last = stops.at(-1);
    if (last !== undefined && last.to >= i) last.to = end - 1;
    else stops.push({ from: i, to: end - 1, reached_dbar: direction * reached });
  }
  return stops;
}
