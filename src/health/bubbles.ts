// Air in the cell: near the surface conductivity drops for a moment and returns, without a change of temperature.

import type { CellColumns } from "../cast/cast.js";
import { madScale } from "../statistics/madScale.js";
import { median } from "../statistics/robustCentre.js";
import { conductivityPerKelvin } from "./conductivitySlopes.js";
import { digits, ofCell, placeOf } from "./describe.js";
import type { HealthFinding } from "./finding.js";
import { plausibleFor } from "./plausibleFor.js";
import type { CellStatistics, Drop } from "./statistics.js";
import { quickScans, type WaterPart } from "./waterPart.js";

/** Bubbles from waves and from the package do not reach deeper, dbar (judgement). */
const deepest_dbar = 20;
/** Readings are compared with the median over this many seconds (judgement: longer than a drop). */
const around_s = 4;
/** Longest drop, s: a longer one is water, or a pump that does not run (judgement). */
const longest_s = 3;
/** A drop is at least this share of conductivity, and this many robust standard deviations (judgement). */
const leastShare = 0.004;
const beyondNoise = 8;
/**
 * Share of the drop that is regained at both ends, largest change of temperature as a share of it, fewest drops reported
 * (judgement).
 */
const back = 0.5;
const still = 0.3;
const tellCount = 3;

/** Short drops of conductivity above 20 dbar, on both legs; none if the scans are too far apart to show them. */
export function dropsOf(part: WaterPart, readings: CellColumns): readonly Drop[] {
  if (!quickScans(part)) return [];
  const pressure = part.columns.pressure_dbar;
  const drops: Drop[] = [];
  // A median needs at least eight scans (judgement).
  const window = Math.max(8, Math.round(around_s / part.interval_s));
  for (let i = part.from; i < part.to; i += window) {
    const end = Math.min(part.to, i + window);
    // Examine windows with a shallow end; skip deep ones.
    if (pressure[i]! < deepest_dbar || pressure[end - 1]! < deepest_dbar) {
      drops.push(...dropsWithin(part, readings, i, end));
    }
  }
  return drops;
}

function dropsWithin(
  { columns, interval_s, inAir }: WaterPart,
  { conductivity_mS_cm, temperature_C }: CellColumns,
  start: number,
  end: number,
): readonly Drop[] {
  const c = conductivity_mS_cm.subarray(start, end);
  const t = temperature_C.subarray(start, end);
  const holds = plausibleFor("conductivity");
  const saltLike = c.map((value, k) =>
    holds(value) ? value - conductivityPerKelvin * t[k]! : Number.NaN,
  );
  const centre = median(saltLike);
  const least = Math.max(leastShare * median(c), beyondNoise * madScale(saltLike, centre));
  const longest = Math.round(longest_s / interval_s);
  const low = (k: number) => saltLike[k]! < centre - least;
  const drops: Drop[] = [];
  for (let k = 1; k < c.length; k++) {
    if (!low(k) || low(k - 1)) continue;
    let last = k;
    let lowest = k;
    while (last + 1 < c.length && low(last + 1)) {
      last++;
      if (saltLike[last]! < saltLike[lowest]!) lowest = last;
    }
    const depth = centre - saltLike[lowest]!;
    const returns = last + 1 < c.length && saltLike[last + 1]! > centre - (1 - back) * depth;
    const calm = Math.abs(t[lowest]! - t[k - 1]!) * conductivityPerKelvin < still * depth;
    const shallow = columns.pressure_dbar[start + lowest]! < deepest_dbar;
    if (returns && calm && shallow && last - k < longest && !inAir(start + lowest)) {
      drops.push({ from: start + k, to: start + last, depth });
    }
    k = last + 1;
  }
  return drops;
}

/** Bubbles are this many times as frequent as downward spikes below (judgement). */
const moreThanBelow = 3;

export function bubbles(part: WaterPart, look: CellStatistics): readonly HealthFinding[] {
  const { cell, drops } = look;
  if (drops.length < tellCount) return [];
  if (drops.length < tellCount + moreThanBelow * expectedOf(part, look)) return [];
  const place = placeOf(part, drops[0]!.from, drops.at(-1)!.to);
  const depth = median(drops.map((drop) => drop.depth));
  const leg = drops.every(({ to }) => to < part.turn) ? " after entry" : "";
  return [
    {
      kind: "bubbles",
      cell,
      sensor: "conductivity",
      ...place,
      size: { value: depth, unit: "mS/cm" },
      what: `Bubbles: ${drops.length} short drops in the ${ofCell(cell, "conductivity")} above ${deepest_dbar} dbar${leg}, usually ${digits(depth)} mS/cm. Temperature has none.`,
      mend: "Soak deeper or longer before the lowering. Do not use the salinity above that.",
      serious: false,
    },
  ];
}

/** Expected number of drops above 20 dbar if they were as frequent there as the downward spikes below. */
function expectedOf({ columns, from, to }: WaterPart, { conductivity }: CellStatistics): number {
  const shallow = (i: number) => columns.pressure_dbar[i]! < deepest_dbar;
  let above = 0;
  for (let i = from; i < to; i++) if (shallow(i)) above++;
  const below = to - from - above;
  const { at, size } = conductivity.spikes;
  const spikesBelow = at.filter((i, k) => size[k]! < 0 && !shallow(i)).length;
  return below > 0 ? (spikesBelow * above) / below : 0;
}
