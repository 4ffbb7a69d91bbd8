// Bottles whose pressures are depths in metres. A metre is about one per cent more than a decibar, and that is worth 140 ppm
// per 1000 dbar if the CTD's readings at closure are written beside the bottle.
import type { Bottle } from "../../cast/bottle.js";
import { median } from "../../statistics/robustCentre.js";
import type { ClosureScans } from "./closureScans.js";
import type { UpScans } from "./upScans.js";

/** Shallower bottles do not show the difference (judgement: at 200 dbar it is 1.6 m, about the swell). */
const least_dbar = 200;
/** As many bottles as these must agree (judgement). */
const fewest = 3;
/**
 * Metres per decibar between 200 and 6000 dbar, from 0 to 90 degrees of latitude: 0.976 to 0.994 [UNESCO1983], with a margin for
 * the swell.
 */
const metresPerDbar = { least: 0.97, most: 0.9955 };

/** The pressure of the CTD at a closure, dbar. */
export function pressureAt({ pressure }: UpScans, { scans }: ClosureScans): number {
  return median(scans.map((scan) => pressure[scan]!));
}

/** Whether most of the deep bottles of a cast show that what is written is not the pressure of the CTD but its depth. */
export function areInMetres(
  bottles: readonly Bottle[],
  pressureOf: (bottle: Bottle) => number | undefined,
): boolean {
  const ratios = bottles.flatMap((bottle) => {
    const pressure = pressureOf(bottle);
    if (pressure === undefined || !(pressure > least_dbar)) return [];
    const ratio = bottle.pressure_dbar / pressure;
    return Number.isFinite(ratio) ? [ratio] : [];
  });
  const depths = ratios.filter(
    (ratio) => ratio > metresPerDbar.least && ratio < metresPerDbar.most,
  );
  return depths.length >= fewest && depths.length > ratios.length / 2;
}
