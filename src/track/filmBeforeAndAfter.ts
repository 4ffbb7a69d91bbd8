// The film of a cell before and after a cleaning, for each history that has one.
import { group, sum } from "d3-array";
import type { IntensityName } from "../cast/maintenance.js";
import type { FilmEvents, Since } from "../model/eventHistory.js";
import { daysOfGrowth } from "../model/filmGrowth.js";
import { filmNoise } from "../model/noise.js";
import { type FilmEstimate, type FilmsOfCast, momentsOfEstimates } from "./filmEstimates.js";
import type { PastCast } from "./pastCast.js";
import { type GainAndClean, type MeanAndVariance, measurementOf } from "./retainedShare.js";
import { daysBetween } from "./tracked.js";

/** Two successive casts that observed the cell, with a cleaning of it between them. */
export interface CleaningInterval {
  /** Indices of the casts. */
  readonly before: number;
  readonly after: number;
  /** The hardest cleaning between the two casts. */
  readonly intensity: IntensityName;
  readonly afterCast: string;
}

export interface FilmBeforeAndAfter {
  /** Weight among all hypotheses; the weights sum to the probability of a film. */
  readonly weight: number;
  readonly before: GainAndClean;
  /** The gain as the casts after it observed it, without the prior expectation of the cleaning. */
  readonly after: MeanAndVariance;
  /** Growth of the film between the two, ppm, negative. */
  readonly growth_ppm: number;
  /** Whether a cleaning in the gap removed the film, according to the hypothesis. */
  readonly cleanedOff: boolean;
}

/** Ignore smaller films, because no cleaning can be judged by them: 10 ppm is 0.0004 in salinity (judgement). */
const leastFilm_ppm = 10;

/**
 * Each hypothesis of the latest cast about this film counts with its weight, so later casts decide between them. If one
 * cast dates the film later and the next cast does not, the first was wrong. The film after the cleaning is taken from the
 * latest cast before it is cleaned again or shed, so that one bad cast has little effect.
 * @param order index of each cast by its id
 * @param casts film estimates of the cell after each cast
 * @param last  index of the last cast that may be used
 */
export function filmsBeforeAndAfter(
  inputs: readonly PastCast[],
  order: ReadonlyMap<string, number>,
  casts: readonly FilmsOfCast[],
  interval: CleaningInterval,
  last: number,
): readonly FilmBeforeAndAfter[] {
  const onsetOf = ({ since }: FilmEvents) => onsetIndex(since, order);
  const newer = ({ film }: FilmEstimate) => onsetOf(film) > interval.before;
  let lastUsed = last;
  while (lastUsed > interval.after && weightOf(casts[lastUsed]!.afterEvidence.filter(newer)) >= 0.5)
    lastUsed--;

  // The outcomes of the cleanings in the gap, in the history of this film.
  const outcomesOf = ({ removals }: FilmEvents) =>
    removals
      .filter(({ cast, when }) => when === "after" && isBetween(order.get(cast) ?? -1, interval))
      .map(({ how }) => how)
      .join();
  const older = casts[lastUsed]!.afterEvidence.filter((held) => !newer(held));
  const groups = group(older, ({ film }) => JSON.stringify([film.since, film.removals]));
  return [...groups.values()].flatMap((histories): readonly FilmBeforeAndAfter[] => {
    const { film } = histories[0]!;
    const weight = weightOf(histories);
    const same = (other: FilmEstimate) => onsetOf(other.film) === onsetOf(film);
    const sameOutcome = (held: readonly FilmEstimate[]) => {
      const ours = held.filter(same);
      const told = ours.filter((other) => outcomesOf(other.film) === outcomesOf(film));
      return told.length > 0 ? told : ours;
    };
    const until = Math.max(
      interval.after,
      Math.min(lastUsed, ...film.removals.map(lastCastBefore(order, interval))),
    );
    const before = momentsOfEstimates(casts[interval.before]!.afterEvidence.filter(same), "up");
    const cleaned = momentsOfEstimates(
      sameOutcome(casts[interval.after - 1]!.afterMaintenance),
      "up",
    );
    const held = momentsOfEstimates(sameOutcome(casts[until]!.afterEvidence), "down");
    if (before === undefined || cleaned === undefined || held === undefined) return [];
    if (before.gain - before.clean > -leastFilm_ppm) return [];
    // Process noise of the film: one step from leg to leg and one from cast to cast.
    const processNoise = filmNoise.usual ** 2 * (1 + 2 * (until - interval.after));
    const days = daysOver(film, inputs, interval.after - 1, until);
    const after = measurementOf(
      {
        mean: cleaned.gain + cleaned.rate * days,
        variance: cleaned.gainVariance + cleaned.rateVariance * days ** 2 + processNoise,
      },
      { mean: held.gain, variance: held.gainVariance },
    );
    if (after === undefined) return [];
    const growing = daysOver(film, inputs, interval.before, until);
    const variance =
      after.variance + held.rateVariance * growing ** 2 + processNoise - filmNoise.usual ** 2;
    return [
      {
        weight,
        before,
        after: { mean: after.mean, variance },
        growth_ppm: Math.min(0, held.rate * growing),
        cleanedOff: outcomesOf(film).includes("cleaned off"),
      },
    ];
  });
}

/** Probability that a film now in the cell was there before a cleaning and has not been removed since. */
export function sameFilmNow(
  order: ReadonlyMap<string, number>,
  now: readonly FilmEstimate[],
  interval: CleaningInterval,
): number {
  const there = now.filter(({ film }) => {
    const how = film.removals.at(-1)?.how;
    return how !== "shed" && how !== "cleaned off";
  });
  const total = weightOf(there);
  const same = there.filter(({ film }) => onsetIndex(film.since, order) <= interval.before);
  return total > 0 ? weightOf(same) / total : 0;
}

function weightOf(held: readonly FilmEstimate[]): number {
  return sum(held, ({ weight }) => weight);
}

/** Index of the last cast before the film went; only removals after the gap count. */
function lastCastBefore(
  order: ReadonlyMap<string, number>,
  interval: CleaningInterval,
): (removal: FilmEvents["removals"][number]) => number {
  return ({ cast, when }) => {
    const at = order.get(cast) ?? Number.POSITIVE_INFINITY;
    if (at < interval.after) return Number.POSITIVE_INFINITY;
    return when === "after" ? at : at - 1;
  };
}

function onsetIndex({ cast, when }: Since, order: ReadonlyMap<string, number>): number {
  if (when === "from the start") return -1;
  // 0.5 more for a film that came between this cast and the next, by definition.
  return (order.get(cast) ?? Number.POSITIVE_INFINITY) + (when === "after" ? 0.5 : 0);
}

function isBetween(index: number, { before, after }: CleaningInterval): boolean {
  return index >= before && index < after;
}

/** Days in which the film grows as in the water. */
function daysOver(film: FilmEvents, inputs: readonly PastCast[], from: number, to: number): number {
  let days = 0;
  for (let i = from; i < to; i++) {
    const next = inputs[i + 1]!;
    const time = { days: daysBetween(inputs[i], next), inWater_days: next.inWater_days ?? 0 };
    days += daysOfGrowth(film, time);
  }
  return days;
}
