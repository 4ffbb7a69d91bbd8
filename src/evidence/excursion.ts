// Something was taken into a cell within the cast: it came at a place of the path and made the cell read fresh. Did
// it fade again, over what distance, or did it stay?
import type { CellName, LegName } from "../cast/cast.js";
import { type PathRows, pathAt } from "./pathRows.js";
import { type PathSearch, searchPath } from "./searchPath.js";

/** A value with its standard uncertainty, in one unit. */
export interface Uncertain {
  readonly value: number;
  readonly standardUncertainty: number;
}

/** The most probable excursion of one cell on one cast, and how probable. */
export interface Excursion {
  readonly cell: CellName;
  /** The leg on which it came, and the probability that it was the way down. */
  readonly leg: LegName;
  readonly probabilityDown: number;
  readonly onset_dbar: Uncertain;
  /** As it came, ppm; negative reads fresh. */
  readonly ppm: Uncertain;
  /** Path over which it falls to 1/e, dbar. */
  readonly recovery_dbar: Uncertain;
  /** Share of it that had gone by the end of the cast. */
  readonly recovered: Uncertain;
  /** Natural logarithms of the evidence ratio against nothing, and against a film that came within the cast and stays. */
  readonly logBayesFactor: { readonly nothing: number; readonly step: number };
  readonly deepest_dbar: number;
}

/** Films fade over a distance between these, dbar, or the path, each so many times the one before. */
const shortest_dbar = 15;
const timesLonger = 1.5;
/** One that would fade over more than this share of the path is one that stays. */
const longestShare = 1;

/**
 * @param rows what bears on the cell: its legs (`legRows`), the pair (`pairRows`), or both
 * @param deepest_dbar of the cast
 * @returns undefined where there is nothing to look at
 */
export function excursionOf(
  cell: CellName,
  rows: readonly PathRows[],
  deepest_dbar: number,
): Excursion | undefined {
  const recoveries: number[] = [];
  for (let r = shortest_dbar; r <= 2 * longestShare * deepest_dbar; r *= timesLonger)
    recoveries.push(r);
  const searches = searchPath(rows, [Number.POSITIVE_INFINITY, ...recoveries]);
  const stays = logSum(searches.slice(0, 1));
  const fading = searches.slice(1);
  const fades = logSum(fading);
  if (!Number.isFinite(fades)) return undefined;
  const end = pathAt("up", 0, deepest_dbar);
  const onset = moments();
  const size = moments();
  const recovery = moments();
  const recovered = moments();
  let down = 0;
  let total = 0;
  let most = 0;
  let leg: LegName = "down";
  for (const { onset_dbar, prior, log, ppm, standardDeviation_ppm, recovery_dbar } of fading) {
    for (let k = 0; k < log.length; k++) {
      const p = prior[k]! * Math.exp(log[k]! - fades);
      if (!(p > 1e-9)) continue;
      const at = onset_dbar[k]!;
      total += p;
      if (at < deepest_dbar) down += p;
      if (p > most) {
        most = p;
        leg = at < deepest_dbar ? "down" : "up";
      }
      onset.add(p, at, 0);
      size.add(p, ppm[k]!, standardDeviation_ppm[k]!);
      recovery.add(p, Math.log(recovery_dbar), 0);
      recovered.add(p, 1 - Math.exp(-(end - at) / recovery_dbar), 0);
    }
  }
  const path = onset.result();
  const logRecovery = recovery.result();
  const length = Math.exp(logRecovery.value);
  return {
    cell,
    leg,
    probabilityDown: down / total,
    onset_dbar: { ...path, value: leg === "down" ? path.value : 2 * deepest_dbar - path.value },
    ppm: size.result(),
    recovery_dbar: {
      value: length,
      standardUncertainty:
        length * Math.hypot(logRecovery.standardUncertainty, Math.log(timesLonger) / Math.sqrt(12)),
    },
    recovered: recovered.result(),
    logBayesFactor: { nothing: fades, step: fades - stays },
    deepest_dbar,
  };
}

/** Evidence over all places and distances, each distance as probable as the next. */
function logSum(searches: readonly PathSearch[]): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const { log } of searches) for (const value of log) if (value > most) most = value;
  if (!Number.isFinite(most)) return most;
  let sum = 0;
  for (const { log, prior } of searches) {
    for (let k = 0; k < log.length; k++) sum += prior[k]! * Math.exp(log[k]! - most);
  }
  return most + Math.log(sum / searches.length);
}

/** Mean and standard deviation of a mixture. */
function moments() {
  let weight = 0;
  let mean = 0;
  let square = 0;
  return {
    add(p: number, value: number, deviation: number): void {
      weight += p;
      mean += p * value;
      square += p * (value * value + deviation * deviation);
    },
    result(): Uncertain {
      const value = mean / weight;
      return {
        value,
        standardUncertainty: Math.sqrt(Math.max(0, square / weight - value * value)),
      };
    },
  };
}
