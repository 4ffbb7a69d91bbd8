// The soak: the package is held near the surface until pump and sensors have settled, and often returned to the surface
// before it is lowered. The down leg begins after it.
import { bottleStops, type StopRule } from "./bottleStops.js";

/** A hold that begins deeper than this is a stop on the way, not a soak, dbar (common practice, no source). */
const deepest_dbar = 30;
const shareOfRange = 0.5;
/** The lowering begins at the last scan within this of the shallowest since the hold began, dbar. */
const atSurface_dbar = 1;
const atSurfaceShare = 0.02;

/**
 * Where the lowering begins in the first part of a cast.
 * @param pressure dbar, of the scans in the water from entry to the deepest scan, in order of time
 * @param seconds  one for each of these
 * @param range_dbar of the whole cast
 * @returns position in `pressure`; 0 without a soak
 */
export function startOfLowering(
  pressure: Float64Array,
  seconds: Float64Array,
  range_dbar: number,
  rule: StopRule,
): number {
  if (pressure.length === 0) return 0;
  const deepest = Math.min(deepest_dbar, shareOfRange * pressure.at(-1)!);
  // A hold that begins above `deepest` ends within this range.
  const below = pressure.findIndex((p) => p >= deepest + rule.within_dbar);
  const above = below < 0 ? pressure : pressure.subarray(0, below);
  const soak = bottleStops(above, seconds, 1, rule).findLast(
    ({ reached_dbar }) => reached_dbar < deepest,
  );
  if (soak === undefined) return 0;
  // The hold ends where the package passes the level of the hold, so a return to the surface belongs to it.
  const { from, to } = soak;
  let shallowest = Number.POSITIVE_INFINITY;
  for (let k = from; k <= to; k++) shallowest = Math.min(shallowest, pressure[k]!);
  const near = shallowest + Math.min(atSurface_dbar, atSurfaceShare * range_dbar);
  let start = to;
  while (pressure[start]! > near) start--;
  return start;
}

/**
 * From this time after the entry the pump runs and the lines are flushed, s. The pump starts up to a minute after the cell
 * meets sea water (common practice, no source). Without a soak the package is lowered meanwhile.
 */
const pumpRuns_s = 75;
/** At most this part of the lowering is given up for it (judgement). */
const mostOfLowering = 0.5;

/**
 * The first scan by which the pump runs.
 * @param seconds of the scans in the water from the entry on
 * @param turn    position of the deepest scan
 */
export function pumpRuns(seconds: Float64Array, turn: number): number {
  const entry = seconds[0]!;
  const latest = Math.min(pumpRuns_s, mostOfLowering * (seconds[turn]! - entry));
  let k = 0;
  while (k < turn && seconds[k]! - entry < latest) k++;
  return k;
}
