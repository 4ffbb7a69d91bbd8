// How much of a film past cleanings left, estimated from the casts before and after them. This is the cell's own record.
// The tracker follows the film with the priors; this file reads the results.
import { sum } from "d3-array";
import type { CellName } from "../cast/cast.js";
import { intensityNames } from "../cast/maintenance.js";
import type { CleaningOutcome } from "../model/recovery.js";
import {
  type CleaningInterval,
  type FilmBeforeAndAfter,
  filmsBeforeAndAfter,
  sameFilmNow,
} from "./filmBeforeAndAfter.js";
import type { FilmsOfCast } from "./filmEstimates.js";
import type { PastCast } from "./pastCast.js";
import { retainedShare } from "./retainedShare.js";

/** A cleaning, the share of the film that it left, and its place in the cruise. */
export interface OutcomeOfCleaning extends CleaningOutcome {
  /** The cast before the cleaning. */
  readonly afterCast: string;
  /**
   * The latest cast that gave new information: the first estimate, or one that contradicts the estimate before. Absent
   * while the probability of a film is below 0.5.
   */
  readonly reportedInCast?: string;
}

/** Standard deviation of a uniform distribution from 0 to 1: an unknown share (mathematics). */
const unknownShareSd = 1 / Math.sqrt(12);
/** If the film had a smaller probability than this, the cleaning gives no information (judgement). */
const leastFilm = 0.05;
/** Report an outcome only if the film had at least this probability (judgement: more likely than not). */
const leastReported = 0.5;
/** Report a share again once it differs by this many standard deviations from the last report (judgement). */
const newInformationSd = 2;
/**
 * A rinse follows every cast: only this many casts after it are used, because later ones add no information (judgement:
 * cost).
 */
const castsForRinse = 3;

type Outcome = Pick<CleaningOutcome, "retained" | "filmProbability">;

/** The estimate for a cleaning, from the casts up to one cast: plain data. */
export interface OutcomeEstimate {
  /** Index of the cast before the cleaning, and of the last cast that was used. */
  readonly before: number;
  readonly last: number;
  /** Absent if no estimate was possible. */
  readonly outcome?: Outcome;
}

/** The film estimates of one cell, cast by cast. */
interface CellFilms {
  /** The casts as they were given to the filter, in order. */
  readonly inputs: readonly PastCast[];
  readonly films: readonly FilmsOfCast[];
}

/**
 * The share of the film that each cleaning of a cell left. It is estimated from all casts after the cleaning, up to the next
 * cleaning, and from no cast later than the newest of the record. Cleanings without an observation of the cell between them count
 * as one, the hardest. A share with the uncertainty of a random number between 0 and 1 is not returned.
 * @returns the estimates as of the newest cast, in order of time; an exchange of the cell has a share of 0. Estimates that later
 *   casts cannot change are computed once and kept in `known`.
 */
export function cleaningOutcomes(
  cell: CellName,
  { inputs, films }: CellFilms,
  known: OutcomeCache,
): readonly OutcomeOfCleaning[] {
  const order = new Map(inputs.map(({ cast }, i) => [cast, i]));
  const estimateFrom = (interval: CleaningInterval, last: number) => {
    const key = `${interval.before} ${last}`;
    let found = known.get(key);
    if (found === undefined) {
      const through = filmsBeforeAndAfter(inputs, order, films, interval, last);
      const outcome = interval.intensity === "rinse" ? outcomeOfRinse(through) : outcomeOf(through);
      found = { before: interval.before, last, ...(outcome === undefined ? {} : { outcome }) };
      known.set(key, found);
    }
    return found.outcome;
  };
  const until = inputs.length - 1;
  const seen = intervalsOf(inputs, cell);
  return seen.flatMap((gap, i): readonly OutcomeOfCleaning[] => {
    const { intensity, afterCast, after } = gap;
    const at = { intensity, cell, afterCast };
    if (intensity === "exchange") {
      const nothing = { retained: { mean: 0, sd: 0 }, filmProbability: 1, sameFilm: 0 };
      return [{ ...at, reportedInCast: inputs[after]!.cast, ...nothing }];
    }
    // The next cleaning changes the film again; a rinse hardly does.
    const next = seen.slice(i + 1).find((later) => later.intensity !== "rinse");
    const furthest = intensity === "rinse" ? after + castsForRinse : Number.POSITIVE_INFINITY;
    const last = Math.min(until, next?.before ?? until, furthest);
    const outcome = estimateFrom(gap, last);
    if (outcome === undefined) return [];
    const reportedIn = lastNewInformation(after, last, (index) => estimateFrom(gap, index));
    const reportedInCast =
      reportedIn === undefined ? {} : { reportedInCast: inputs[reportedIn]!.cast };
    const sameFilm = sameFilmNow(order, films[until]!.afterEvidence, gap);
    return [{ ...at, ...reportedInCast, ...outcome, sameFilm }];
  });
}

/** The estimates for one cell so far; `cleaningOutcomes` adds to it. */
export type OutcomeCache = Map<string, OutcomeEstimate>;

/** Rebuild the estimates from stored data. */
export function outcomeCache(stored: readonly OutcomeEstimate[]): OutcomeCache {
  return new Map(stored.map((one) => [`${one.before} ${one.last}`, one]));
}

/** Index of the latest cast that gave new information. */
function lastNewInformation(
  first: number,
  last: number,
  estimateFrom: (index: number) => Outcome | undefined,
): number | undefined {
  let reported: CleaningOutcome["retained"] | undefined;
  let at: number | undefined;
  for (let i = first; i <= last; i++) {
    const outcome = estimateFrom(i);
    if (outcome === undefined || outcome.filmProbability < leastReported) continue;
    const { mean, sd } = outcome.retained;
    const news =
      reported && Math.abs(mean - reported.mean) > newInformationSd * Math.hypot(sd, reported.sd);
    if (news === false) continue;
    reported = outcome.retained;
    at = i;
  }
  return at;
}

/** Mean and standard deviation over the hypotheses that hold a film through the cleaning. */
function outcomeOf(films: readonly FilmBeforeAndAfter[]): Outcome | undefined {
  const total = sum(films, ({ weight }) => weight);
  if (total < leastFilm) return undefined;
  const shares = films.map(({ weight, before, after, growth_ppm }) => ({
    weight: weight / total,
    ...retainedShare(before, after, growth_ppm),
  }));
  const mean = sum(shares, (share) => share.weight * share.mean);
  const variance = sum(
    shares,
    (share) => share.weight * (share.sd ** 2 + (share.mean - mean) ** 2),
  );
  const sd = Math.sqrt(variance);
  return sd < unknownShareSd
    ? { retained: { mean, sd }, filmProbability: Math.min(1, total) }
    : undefined;
}

/** Credit a rinse only if "it removed the film" is more probable than "nothing happened". */
function outcomeOfRinse(films: readonly FilmBeforeAndAfter[]): Outcome | undefined {
  const outcome = outcomeOf(films);
  if (outcome === undefined) return undefined;
  const off = sum(films, ({ weight, cleanedOff }) => (cleanedOff ? weight : 0));
  return off > outcome.filmProbability / 2 ? outcome : { ...outcome, retained: { mean: 1, sd: 0 } };
}

function intervalsOf(inputs: readonly PastCast[], cell: CellName): readonly CleaningInterval[] {
  const observed = inputs.flatMap(({ observed }, i) => (observed.includes(cell) ? [i] : []));
  return observed.slice(1).flatMap((after, i): readonly CleaningInterval[] => {
    const before = observed[i]!;
    const done = inputs
      .slice(before, after)
      .flatMap(({ cast, maintenanceAfter }) =>
        maintenanceAfter
          .filter((event) => event.cell === undefined || event.cell === cell)
          .map(({ action }) => ({ action, cast })),
      );
    // A new calibration makes the clean gain unknown again, so the film before and after it cannot be compared.
    if (done.some(({ action }) => action === "calibration")) return [];
    const hardest = intensityNames.findLast((name) => done.some(({ action }) => action === name));
    if (hardest === undefined) return [];
    const { cast } = done.findLast(({ action }) => action === hardest)!;
    return [{ before, after, intensity: hardest, afterCast: cast }];
  });
}
