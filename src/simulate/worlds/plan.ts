// The plan of a cruise: casts, depths, times and bottles, before any fault.
// Numbers without a source are judgement: cruises from leisurely to hurried.
import type { CellName } from "../../cast/cast.js";
import type { RandomStream } from "../random.js";
import { between, betweenLog, happens, wholeBetween } from "./draws.js";
import { drawJourney, drawPractice, type Journey } from "./journey.js";

export interface PlannedCast {
  readonly id: string;
  /** First scan, hours since the start of the cruise. */
  readonly began_h: number;
  readonly journey: Journey;
}

export interface Plan {
  readonly cells: readonly CellName[];
  readonly bottom_dbar: number;
  readonly casts: readonly PlannedCast[];
}

/** Options of a caller. */
export interface WorldOptions {
  /** Scans a second; default 4. */
  readonly rate_Hz?: number;
  /** Number of casts; default 12. */
  readonly casts?: number;
  /** Number of newest casts whose salinities are not yet measured; default 0. */
  readonly newestUnmeasured?: number;
  /** Cells of the package; drawn if absent. */
  readonly cells?: readonly CellName[];
}

const twoCells = 0.75;

export function drawPlan(random: RandomStream, options: WorldOptions): Plan {
  const bottom_dbar = Math.round(betweenLog(random, 1000, 4500));
  const practice = drawPractice(random.split("practice"));
  const bottles = wholeBetween(random, 8, 24);
  const hurry = betweenLog(random, 1.5, 9);
  const cells: readonly CellName[] =
    options.cells ?? (happens(random, twoCells) ? ["primary", "secondary"] : ["primary"]);
  let hour = 0;
  const casts = Array.from({ length: options.casts ?? 12 }, (_, i): PlannedCast => {
    const own = random.split("cast").split(i);
    const depth = Math.max(1000, Math.round(bottom_dbar * between(own, 0.8, 1)));
    const depths = bottleDepths(own, bottles, depth);
    const journey = drawJourney(own, practice, depths, depth, options.rate_Hz ?? 4);
    const began_h = hour;
    hour += journey.pressure.length / journey.rate_Hz / 3600 + hurry * between(own, 0.6, 1.6);
    return { id: String(i + 1).padStart(3, "0"), began_h, journey };
  });
  return { cells, bottom_dbar, casts };
}

/** Pressures from the bottom up, denser toward the surface, as usual for chemical samples; dbar. */
function bottleDepths(random: RandomStream, count: number, deepest: number): readonly number[] {
  return Array.from({ length: count }, (_, k) => {
    const share = (count - 1 - k) / Math.max(1, count - 1);
    const depth = 5 + (deepest - 5) * share ** 1.5;
    return k === 0 ? deepest : Math.max(5, Math.round(depth * between(random, 0.95, 1.05)));
  });
}

/** Time of a scan, hours since the start of the cruise. */
export function hourOf({ began_h, journey }: PlannedCast, scan: number): number {
  return began_h + scan / journey.rate_Hz / 3600;
}
