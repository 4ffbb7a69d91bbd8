// All possible films of one cell on one cast, with their evidence: no film, a film that came and stayed, one that came and
// faded over some distance, or one that came and left at once; also different water on the up leg.
import { logSum } from "../../statistics/logSum.js";
import { alongPath } from "./alongPath.js";
import type { PathRows } from "./pathRows.js";
import { type BoxSearch, searchBox } from "./searchBox.js";
import { type PathSearch, searchPath } from "./searchPath.js";
import { type CleanRows, withoutBackground } from "./withoutBackground.js";

/** Films that fade over one distance, and the probability of that distance among all. */
interface FadingFilms {
  readonly search: PathSearch;
  readonly share: number;
}

export interface FilmsOnPath {
  readonly deepest_dbar: number;
  readonly stays: PathSearch;
  /** In order of rising distance. */
  readonly fades: readonly FadingFilms[];
  /** Absent if nothing suggests a film. */
  readonly leaves?: BoxSearch;
  /**
   * Natural logarithms of the evidence ratio against no film; that of different water is computed on demand. `goes` is that of
   * a film that fades or leaves.
   */
  readonly log: {
    readonly stays: number;
    readonly fades: number;
    readonly goes: number;
    /** A film that was there before the cast leaves at once. */
    readonly left: number;
    readonly otherWater: number;
  };
}

/** Range of decay distances, dbar and shares of the deepest pressure; uniform in the logarithm (judgement). */
const shortest_dbar = 15;
const shortestShare = 1 / 100;
const longestShare = 1;
const timesLonger = 1.8;
/** A film that leaves at once is looked for if one that stays or fades has more evidence than this (speed). */
const leastLog = 3;
/** Half of what comes and goes fades, half leaves at once (judgement). */
const leavesAtOnce = 0.5;
/**
 * If the grid is too coarse, add this many distances between the best and each neighbour, up to this many times (speed).
 */
const between = 3;
const rounds = 2;

/**
 * @param rows observations of the cell: its legs (`legRows`), the pair (`pairRows`), or both
 * @param deepest_dbar of the cast
 */
export function filmsOnPath(rows: readonly PathRows[], deepest_dbar: number): FilmsOnPath {
  const clean = rows.map(withoutBackground);
  const along = alongPath(clean);
  const search = (recovery_dbar: number) => searchPath(along, recovery_dbar);
  const stays = search(Number.POSITIVE_INFINITY);
  let searches: PathSearch[] = [];
  const shortest = Math.min(shortest_dbar, shortestShare * deepest_dbar);
  for (let r = shortest; r <= longestShare * deepest_dbar; r *= timesLonger)
    searches.push(search(r));
  for (let round = 0; round < rounds; round++) {
    const finer = recoveriesBetween(shared(searches));
    if (finer.length === 0) break;
    searches = [...searches, ...finer.map(search)].sort(
      (a, b) => a.recovery_dbar - b.recovery_dbar,
    );
  }
  const fades = shared(searches);
  const fading = logSum(
    fades.map((film) => film.search.logOfAll),
    fades.map(({ share }) => share),
  );
  const leaves = Math.max(stays.logOfAll, fading) > leastLog ? searchBox(along) : undefined;
  let water: number | undefined;
  return {
    deepest_dbar,
    stays,
    fades,
    ...(leaves === undefined ? {} : { leaves }),
    log: {
      stays: stays.logOfAll,
      left: searchPath(along, Number.POSITIVE_INFINITY, 1).logOfAll,
      fades: fading,
      goes:
        leaves === undefined
          ? fading
          : logSum([fading, leaves.logOfAll], [1 - leavesAtOnce, leavesAtOnce]),
      get otherWater() {
        water ??= otherWater(clean);
        return water;
      },
    },
  };
}

/** Each distance represents the range half-way to its neighbours in the logarithm. */
function shared(searches: readonly PathSearch[]): FadingFilms[] {
  const at = searches.map(({ recovery_dbar }) => Math.log(recovery_dbar));
  const half = Math.log(timesLonger) / 2;
  const edges = [
    at[0]! - half,
    ...at.slice(1).map((here, j) => (here + at[j]!) / 2),
    at.at(-1)! + half,
  ];
  const whole = edges.at(-1)! - edges[0]!;
  return searches.map((search, j) => ({ search, share: (edges[j + 1]! - edges[j]!) / whole }));
}

/** Distances between the most probable one and its neighbours, if it is much more probable than those. */
function recoveriesBetween(fades: readonly FadingFilms[]): number[] {
  const logs = fades.map(({ search }) => search.logOfAll);
  const best = logs.indexOf(Math.max(...logs));
  const recovery = (j: number) => fades[j]?.search.recovery_dbar;
  return [best - 1, best].flatMap((j) => {
    const [from, to] = [recovery(j), recovery(j + 1)];
    if (from === undefined || to === undefined) return [];
    if (Math.abs(logs[j]! - logs[j + 1]!) < 0.5) return [];
    return Array.from(
      { length: between },
      (_, k) => from * (to / from) ** ((k + 1) / (between + 1)),
    );
  });
}

/** The largest evidence among the different waters. */
function otherWater(rows: readonly CleanRows[]): number {
  return rows.reduce((sum, own) => {
    if (own.otherWater === undefined) return sum;
    const logs = own.otherWater.map(
      (water) => withoutBackground({ ...own, background: [...own.background, ...water] }).log,
    );
    return sum + Math.max(...logs) - own.log;
  }, 0);
}
