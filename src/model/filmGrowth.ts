// The growth of a film on deck. In the water a film grows all the time. On deck it may stop, in a cell that is rinsed, filled or
// dry.
import type { FilmEvents } from "./eventHistory.js";

/** Time until the next cast, and the part of it in the water, on that cast. */
export interface GrowthTime {
  readonly days: number;
  readonly inWater_days: number;
}

/**
 * If growth on deck is less than in the water: its share of the growth in the water, mean and standard deviation from interval to
 * interval (judgement: a rinsed cell stops most growth, a cell left wet does not).
 */
export const lessOnDeck = { mean: 0.25, sd: 0.15 };

/** Growth on deck as a share of that in the water, its mean. */
export function shareOnDeck(onDeck: FilmEvents["onDeck"]): number {
  return onDeck === "less" ? lessOnDeck.mean : 1;
}

/** Days in the water during which the film grows as much as in this interval. */
export function daysOfGrowth(
  film: FilmEvents | undefined,
  { days, inWater_days }: GrowthTime,
): number {
  const inWater = Math.min(days, inWater_days);
  return inWater + shareOnDeck(film?.onDeck) * (days - inWater);
}
