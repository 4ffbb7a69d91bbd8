// How much of a film past cleanings left, estimated from the casts before and after them. This is the cell's own record.
// The tracker follows the film with the priors; this file reads the results.
import type { CellName } from "../cast/cast.js";
import { intensityNames } from "../cast/maintenance.js";
import type { CleaningOutcome } from "../model/recovery.js";
import type { FilmsOfCast } from "./filmsHeld.js";
import { type FilmThrough, filmsThrough, type Gap, sameFilmNow } from "./filmThrough.js";
import type { PastCast } from "./pastCast.js";
import { shareBetween } from "./shareBetween.js";

/** A cleaning and what it left, with where it stands in the cruise. */
export interface SeenCleaning extends CleaningOutcome {
  /** The cast before the cleaning. */
  readonly afterCast: string;
  /**
   * The latest cast that gave new information: the first estimate, or one that contradicts the estimate before. Absent
   * while the probability of a film is below 0.5.
   */
  readonly toldInCast?: string;
}

/** Standard deviation of a uniform distribution from 0 to 1: an unknown share (mathematics). */
const nothingKnown = 1 / Math.sqrt(12);
/** If the film had a smaller probability than this, the cleaning teaches nothing (judgement). */
const leastFilm = 0.05;
/** Report an outcome only if the film had at least this probability (judgement: more likely than not). */
const worthTelling = 0.5;
/** Report a share again once it differs by this many standard deviations from the last report (judgement). */
const contradicted = 2;
/**
 * A rinse follows every cast: only this many casts after it are used, because later ones add no information (judgement:
 * cost).
 */
const castsForRinse = 3;

type Told = Pick<CleaningOutcome, "retained" | "filmProbability">;

/** The estimate for a cleaning, from the casts up to one cast: plain data. */
export interface ToldFrom {
  /** Index of the cast before the cleaning, and of the last cast that was used. */
  readonly before: number;
  readonly last: number;
  /** Absent if no estimate was possible. */
  readonly told?: Told;
}

/** The film estimates of one cell, cast by cast. */
interface CellRecord {
  /** The casts as they were given to the filter, in order. */
  readonly inputs: readonly PastCast[];
  readonly films: readonly FilmsOfCast[];
}

/**
 * The share of the film that each cleaning of a cell left. It is estimated from all casts after the cleaning, up to the
 * next cleaning, and from no cast later than the newest of the record. Cleanings without an observation of the cell between
 * them count as one, the hardest. A share that is no better known than a random one is not returned.
 * @returns the estimates as of the newest cast, in order of time; an exchange of the cell has a share of 0. Estimates that
 *   later casts cannot change are computed once and kept in `known`.
 */
export function cleaningOutcomes(
  cell: CellName,
  { inputs, films }: CellRecord,
  known: OutcomesKnown,
): readonly SeenCleaning[] {
  const order = new Map(inputs.map(({ cast }, i) => [cast, i]));
  const toldFrom = (gap: Gap, last: number) => {
    const key = `${gap.before} ${last}`;
    let found = known.get(key);
    if (found === undefined) {
      const through = filmsThrough(inputs, order, films, gap, last);
      const told = gap.intensity === "rinse" ? rinsed(through) : toldOf(through);
      found = { before: gap.before, last, ...(told === undefined ? {} : { told }) };
      known.set(key, found);
    }
    return found.told;
  };
  const until = inputs.length - 1;
  const seen = gapsOf(inputs, cell);
  return seen.flatMap((gap, i): readonly SeenCleaning[] => {
    const { intensity, afterCast, after } = gap;
    const at = { intensity, cell, afterCast };
    if (intensity === "exchange") {
      const nothing = { retained: { mean: 0, sd: 0 }, filmProbability: 1, sameFilm: 0 };
      return [{ ...at, toldInCast: inputs[after]!.cast, ...nothing }];
    }
    // The next cleaning changes the film again; a rinse hardly does.
    const next = seen.slice(i + 1).find((later) => later.intensity !== "rinse");
    const furthest = intensity === "rinse" ? after + castsForRinse : Number.POSITIVE_INFINITY;
    const last = Math.min(until, next?.before ?? until, furthest);
    const told = toldFrom(gap, last);
    if (told === undefined) return [];
    const toldIn = lastTelling(after, last, (index) => toldFrom(gap, index));
    const toldInCast = toldIn === undefined ? {} : { toldInCast: inputs[toldIn]!.cast };
    const sameFilm = sameFilmNow(order, films[until]!.held, gap);
    return [{ ...at, ...toldInCast, ...told, sameFilm }];
  });
}

/** The estimates for one cell so far; `cleaningOutcomes` adds to it. */
export type OutcomesKnown = Map<string, ToldFrom>;

/** Rebuild the estimates from stored data. */
export function outcomesKnown(told: readonly ToldFrom[]): OutcomesKnown {
  return new Map(told.map((one) => [`${one.before} ${one.last}`, one]));
}

/** Index of the latest cast that gave new information. */
function lastTelling(
  first: number,
  last: number,
  toldFrom: (index: number) => Told | undefined,
): number | undefined {
  let said: CleaningOutcome["retained"] | undefined;
  let at: number | undefined;
  for (let i = first; i <= last; i++) {
    const told = toldFrom(i);
    if (told === undefined || told.filmProbability < worthTelling) continue;
    const { mean, sd } = told.retained;
    const news = said && Math.abs(mean - said.mean) > contradicted * Math.hypot(sd, said.sd);
    if (news === false) continue;
    said = told.retained;
    at = i;
  }
  return at;
}

/** Mean and standard deviation over the hypotheses that hold a film through the cleaning. */
function toldOf(films: readonly FilmThrough[]): Told | undefined {
  const total = films.reduce((sum, { weight }) => sum + weight, 0);
  if (total < leastFilm) return undefined;
  const shares = films.map(({ weight, before, after, growth_ppm }) => ({
    weight: weight / total,
    ...shareBetween(before, after, growth_ppm),
  }));
  const mean = shares.reduce((sum, share) => sum + share.weight * share.mean, 0);
  const variance = shares.reduce(
    (sum, share) => sum + share.weight * (share.sd ** 2 + (share.mean - mean) ** 2),
    0,
  );
  const sd = Math.sqrt(variance);
  return sd < nothingKnown
    ? { retained: { mean, sd }, filmProbability: Math.min(1, total) }
    : undefined;
}

/** Credit a rinse only if "it removed the film" is more probable than "nothing happened". */
function rinsed(films: readonly FilmThrough[]): Told | undefined {
  const told = toldOf(films);
  if (told === undefined) return undefined;
  const off = films.reduce((sum, { weight, cleanedOff }) => sum + (cleanedOff ? weight : 0), 0);
  return off > told.filmProbability / 2 ? told : { ...told, retained: { mean: 1, sd: 0 } };
}

function gapsOf(inputs: readonly PastCast[], cell: CellName): readonly Gap[] {
  const observed = inputs.flatMap(({ observed }, i) => (observed.includes(cell) ? [i] : []));
  return observed.slice(1).flatMap((after, i): readonly Gap[] => {
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
