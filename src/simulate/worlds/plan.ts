// How a cruise is laid out: its casts, their depths, times and bottles, before anything goes wrong on it.
import type { CellName } from "../../cast/cast.js";
import type { RandomStream } from "../random.js";
import { between, betweenLog, happens, wholeBetween } from "./draws.js";
import { drawJourney, drawPractice, type Journey } from "./journey.js";

export interface PlannedCast {
  readonly id: string;
  /** Hours since the cruise began, of the first scan. */
  readonly began_h: number;
  readonly journey: Journey;
}

export interface Plan {
  readonly cells: readonly CellName[];
  readonly bottom_dbar: number;
  readonly casts: readonly PlannedCast[];
}

/** What a caller may ask for. */
export interface WorldOptions {
  /** Scans a second, 4 where absent. */
  readonly rate_Hz?: number;
  /** 12 where absent. */
  readonly casts?: number;
  /** So many of the newest casts have no salinities yet; none where absent. */
  readonly newestUnmeasured?: number;
  /** Two cells, or one; drawn where absent. */
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

/** From the bottom up, denser toward the surface, as water is sampled for chemistry. */
function bottleDepths(random: RandomStream, count: number, deepest: number): readonly number[] {
  return Array.from({ length: count }, (_, k) => {
    const share = (count - 1 - k) / Math.max(1, count - 1);
    const depth = 5 + (deepest - 5) * share ** 1.5;
    return k === 0 ? deepest : Math.max(5, Math.round(depth * between(random, 0.95, 1.05)));
  });
}

/** Of one cast, hours since the cruise began. */
export function hourOf({ began_h, journey }: PlannedCast, scan: number): number {
  return began_h + scan / journey.rate_Hz / 3600;
}
