// Laboratory salinities that occur on two casts: a sheet copied onto the wrong cast. Sequences may also be equal by chance,
// as rounded values of calm deep water. The probability of that distinguishes them from copies.
import type { Bottle } from "../../cast/bottle.js";
import type { CellName } from "../../cast/cast.js";
import type { CruiseCast } from "../../cast/cruise.js";
import { madScale } from "../../statistics/madScale.js";
import { normalPdf } from "../../statistics/normal.js";
import { median } from "../../statistics/robustCentre.js";
import { laboratorySalinity } from "./bottleNoise.js";
import {
  fromItsScans,
  type LaboratoryBesideCtd,
  laboratoryBesideCtd,
  measuredSeries,
  type ReaderOf,
  type Series,
} from "./laboratoryBesideCtd.js";

/** Fewer successive equal values are not a sequence (judgement). */
const fewest = 4;
/** Report copies if a cruise would show an equal sequence by chance with less than this probability (judgement). */
const improbable = 1e-3;
/**
 * Repeatability of a salinity in the best laboratories [KawanoEtAl2006]: it gives the frequency of equal rounded values.
 */
const bestLaboratory = 0.0002;
/** One in fifty sound bottles is off, anywhere within 0.1 (judgement): density per unit of salinity. */
const straysDensity = 0.02 / 0.1;

interface EqualRun {
  readonly earlier: Series;
  readonly later: Series;
  /** Its start in each cast, and its length. */
  readonly at: { readonly earlier: number; readonly later: number };
  readonly length: number;
}

/**
 * @param casts    in order of time
 * @param bottles  by cast id
 * @param cells    cells that decide to which cast the salinities belong, the first choice first
 * @param readerOf from the scans of the cast if absent
 * @returns for each bottle whose salinity belongs to another cast, the reason in plain words
 */
export function copiedSalinities(
  casts: readonly CruiseCast[],
  bottles: ReadonlyMap<string, readonly Bottle[]>,
  cells: readonly CellName[],
  readerOf: ReaderOf = fromItsScans,
): ReadonlyMap<Bottle, string> {
  const all = measuredSeries(casts, bottles, fewest).map((series) => {
    return { ...series, bottles: inOrder(series.bottles) };
  });
  const step = resolution(all.flatMap((series) => series.bottles.map(({ salinity }) => salinity)));
  const compared = all.reduce((sum, series, i) => sum + i * series.bottles.length, 0);
  const copied = new Map<Bottle, string>();
  for (const equal of equalRuns(all)) {
    const { earlier, later, at, length } = equal;
    const beside = ({ cast, bottles }: Series, from: number) => {
      const run = { cast, bottles: bottles.slice(from, from + length) };
      return laboratoryBesideCtd(run, cells, readerOf);
    };
    const there = beside(earlier, at.earlier);
    const here = beside(later, at.later);
    if (!(compared * chanceOf(there, here, step) < improbable)) continue;
    // The salinities belong to the cast on which they follow the CTD; if neither shows it, to the earlier cast.
    const copy = scatter(there) > scatter(here) ? "earlier" : "later";
    const original = copy === "later" ? earlier : later;
    const why = `copied: ${length} bottles in a row have the salinities of cast ${original.cast.id}`;
    for (const bottle of equal[copy].bottles.slice(at[copy], at[copy] + length)) {
      copied.set(bottle, why);
    }
  }
  return copied;
}

function inOrder(bottles: readonly Bottle[]): readonly Bottle[] {
  const numbers = bottles.map(({ bottle }) => Number(bottle));
  if (new Set(numbers).size < bottles.length || numbers.some(Number.isNaN)) return bottles;
  return [...bottles].sort((a, b) => Number(a.bottle) - Number(b.bottle));
}

/** The longest equal sequences of each cast with earlier ones, found by their first values. */
function equalRuns(all: readonly Series[]): readonly EqualRun[] {
  const beginnings = new Map<string, { readonly series: Series; readonly at: number }[]>();
  const runs: EqualRun[] = [];
  for (const later of all) {
    const keys = keysOf(later);
    for (const [at, key] of keys.entries()) {
      for (const { series: earlier, at: from } of beginnings.get(key) ?? []) {
        const before = at > 0 && from > 0;
        if (before && salinityAt(later, at - 1) === salinityAt(earlier, from - 1)) continue;
        let length = fewest;
        while (
          at + length < later.bottles.length &&
          salinityAt(later, at + length) === salinityAt(earlier, from + length)
        ) {
          length++;
        }
        runs.push({ earlier, later, at: { earlier: from, later: at }, length });
      }
    }
    for (const [at, key] of keys.entries()) {
      const known = beginnings.get(key);
      if (known === undefined) beginnings.set(key, [{ series: later, at }]);
      else known.push({ series: later, at });
    }
  }
  return runs;
}

function keysOf({ bottles }: Series): readonly string[] {
  const values = bottles.map(({ salinity }) => salinity);
  return values.slice(fewest - 1).map((_, k) => values.slice(k, k + fewest).join(" "));
}

/** NaN beyond the end, which equals nothing. */
function salinityAt({ bottles }: Series, at: number): number {
  return bottles[at]?.salinity ?? Number.NaN;
}

/**
 * The probability that sound samples of both casts are all equal by chance, given the difference of the waters according to
 * the CTD, without a change of the cell between the casts.
 */
function chanceOf(
  there: readonly LaboratoryBesideCtd[],
  here: readonly LaboratoryBesideCtd[],
  step: number,
): number {
  const differences = here.map(({ ctd }, i) => ctd - there[i]!.ctd);
  const usual = median(differences);
  // The peak of the density is that of the best laboratory, its width that of an ordinary one. This gives an upper limit of
  // chance.
  const peak = 1 / (Math.SQRT2 * bestLaboratory);
  const sd = Math.SQRT2 * laboratorySalinity;
  return differences.reduce((product, difference) => {
    const away = Number.isFinite(difference) ? (difference - usual) / sd : 0;
    return product * Math.min(1, step * (peak * normalPdf(away) + straysDensity));
  }, 1);
}

/** Scatter of the salinities about the CTD; -1 without a reading. */
function scatter(readings: readonly LaboratoryBesideCtd[]): number {
  const scale = madScale(readings.map(({ ctd, laboratory }) => laboratory - ctd));
  return Number.isNaN(scale) ? -1 : scale;
}

/**
 * The decimals of the written salinities: the smallest number, at least three, that fits all but a few (judgement: nine in
 * ten).
 */
function resolution(salinities: readonly number[]): number {
  for (const step of [1e-3, 1e-4]) {
    const whole = salinities.filter(
      (value) => Math.abs(value / step - Math.round(value / step)) < 1e-6,
    );
    if (whole.length >= 0.9 * salinities.length) return step;
  }
  return 1e-5;
}
