// What past cleanings turned out to leave of a film, from the casts before and after them: what a cell's own
// record has to teach. The tracker follows the film with the priors; this reads off what became of it.
import type { CellName } from "../cast/cast.js";
import { intensityNames } from "../cast/maintenance.js";
import type { CleaningOutcome } from "../model/recovery.js";
import type { FilmsOfCast } from "./filmsHeld.js";
import { type FilmThrough, filmsThrough, type Gap, sameFilmNow } from "./filmThrough.js";
import type { PastCast } from "./pastCast.js";
import { shareBetween } from "./shareBetween.js";

/** A cleaning and what it left, with where it stands in the cruise. */
export interface SeenCleaning extends CleaningOutcome {
  /** The cast it followed. */
  readonly afterCast: string;
  /**
   * The latest cast that told something new of it: the first that told of it, or one that contradicted what was told.
   * Absent while a film is less probable than 0.5.
   */
  readonly toldInCast?: string;
}

/** A share of which no more is known than that it lies between none and all is uniform, of this standard deviation: mathematics. */
const nothingKnown = 1 / Math.sqrt(12);
/** A film less probable than this through a cleaning teaches nothing (judgement). */
const leastFilm = 0.05;
/** An outcome is reported where the film was at least this probable (judgement: more likely than not). */
const worthTelling = 0.5;
/** A share is reported again once it is this many standard deviations from the last report (judgement). */
const contradicted = 2;
/** Rinses follow each cast: beyond so many casts the next ones say no more of it (judgement: cost). */
const castsForRinse = 3;

type Told = Pick<CleaningOutcome, "retained" | "filmProbability">;

/** What was told of a cleaning from the casts up to one: plain values. */
export interface ToldFrom {
  /** Index of the cast before the cleaning, and of the last cast that was looked at. */
  readonly before: number;
  readonly last: number;
  /** Absent where nothing could be told. */
  readonly told?: Told;
}

/** What was held of the films of one cell, cast by cast. */
interface CellRecord {
  /** The casts as they were given to the filter, in order. */
  readonly inputs: readonly PastCast[];
  readonly films: readonly FilmsOfCast[];
}

/**
 * The share of the film that each cleaning of a cell left, told from the casts up to one and from none later: from all
 * casts after it, up to the next cleaning. Cleanings with no observation of the cell between them count as one, the
 * hardest. Nothing is said where the share is known no better than a share drawn at random.
 * @returns what is to be told when the newest cast of a record has come up, in order of time; an exchange of the cell
 *   with a share of 0. Of a record that grows cast by cast, what does not change with later casts is computed once.
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
    // What is done next changes the film again, a rinse hardly.
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

/** What has been told of one cell so far; `cleaningOutcomes` adds to it. */
export type OutcomesKnown = Map<string, ToldFrom>;

/** From what was put away. */
export function outcomesKnown(told: readonly ToldFrom[]): OutcomesKnown {
  return new Map(told.map((one) => [`${one.before} ${one.last}`, one]));
}

/** Index of the latest cast that told something new. */
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

/** A rinse is credited only where it is more probable that it took the film off than that nothing happened. */
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
    // A new calibration begins the tracker's knowledge of the clean gain anew: nothing to hold a film against.
    if (done.some(({ action }) => action === "calibration")) return [];
    const hardest = intensityNames.findLast((name) => done.some(({ action }) => action === name));
    if (hardest === undefined) return [];
    const { cast } = done.findLast(({ action }) => action === hardest)!;
    return [{ before, after, intensity: hardest, afterCast: cast }];
  });
}
