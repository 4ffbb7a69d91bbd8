// Where the package stood while it should have been going: for bottles, or for any other reason. Judged by
// how far the leg got, not by the speed of each scan, so that a ship's heave does not hide a stop.

export interface StopRule {
  /** A stop lasts at least this long, s. */
  readonly least_s: number;
  /** Meanwhile the leg gets on by less than this, dbar. */
  readonly within_dbar: number;
}

/** Longer than two waves of a common swell; quicker on a short leg (common practice, no source). */
const longest_s = 15;
const shortest_s = 3;
const shareOfLeg = 0.25;
/** Getting on slower than this share of the usual rate is standing. */
const standing = 0.15;
const most_dbar = 1;

/** The rule for a cast whose legs span `range_dbar` at a usual rate of `rate_dbar_s`. */
export function stopRule(range_dbar: number, rate_dbar_s: number): StopRule {
  const leg_s = range_dbar / rate_dbar_s;
  const least_s = Math.max(shortest_s, Math.min(longest_s, shareOfLeg * leg_s));
  return { least_s, within_dbar: Math.min(most_dbar, standing * rate_dbar_s * least_s) };
}

/**
 * The stops of one leg.
 * @param reached  the furthest the leg had got at each scan, dbar, never falling; see `furthestReached`
 * @param seconds  one a scan, never falling
 * @returns from, to (both included) of each stop, one after the other, as positions in `reached`
 */
export function bottleStops(
  reached: Float64Array,
  seconds: Float64Array,
  { least_s, within_dbar }: StopRule,
): readonly (readonly [from: number, to: number])[] {
  const stops: [number, number][] = [];
  let end = 0;
  for (let i = 0; i < reached.length; i++) {
    while (end < reached.length && reached[end]! - reached[i]! < within_dbar) end++;
    if (seconds[end - 1]! - seconds[i]! < least_s) continue;
    const last = stops.at(-1);
    if (last !== undefined && last[1] >= i) last[1] = end - 1;
    else stops.push([i, end - 1]);
  }
  return stops;
}

/**
 * How far a leg had got at each of its scans.
 * @param pressure  dbar, of the leg's scans in order of time
 * @param direction +1 on the way down, -1 on the way up
 * @returns direction x pressure at its greatest so far, dbar
 */
export function furthestReached(pressure: Float64Array, direction: 1 | -1): Float64Array {
  const reached = new Float64Array(pressure.length);
  let furthest = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < pressure.length; k++) {
    const p = direction * pressure[k]!;
    if (p > furthest) furthest = p;
    reached[k] = furthest;
  }
  return reached;
}
