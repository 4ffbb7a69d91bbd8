// Laboratory salinities that stand on two casts: a sheet copied onto the wrong cast. Sequences that are equal by chance,
// as rounded values of calm deep water can be, are told from copies by how improbable that is.
import type { Bottle } from "../../cast/bottle.js";
import type { CellName } from "../../cast/cast.js";
import type { CruiseCast } from "../../cast/cruise.js";
import { spFromC } from "../../seawater/index.js";
import { madScale } from "../../statistics/madScale.js";
import { normalPdf } from "../../statistics/normal.js";
import { median } from "../../statistics/robustCentre.js";
import { laboratorySalinity } from "./bottleNoise.js";
import { type ClosureReader, closureReader } from "./closureReadings.js";

/** Fewer equal values in a row are no sequence (judgement). */
const fewest = 4;
/** A cruise shows an equal sequence by chance in fewer cases than this where copies are named (judgement). */
const improbable = 1e-3;
/** The best laboratories repeat a salinity to within this [KawanoEtAl2006]: so often are rounded values equal by chance. */
const bestLaboratory = 0.0002;
/** Of sound bottles one in fifty is off, anywhere within 0.1 (judgement): density per unit of salinity. */
const straysDensity = 0.02 / 0.1;

/** The measured salinities of one cast, in the order of its bottle numbers. */
interface Series {
  readonly cast: CruiseCast;
  readonly bottles: readonly Bottle[];
}

interface EqualRun {
  readonly earlier: Series;
  readonly later: Series;
  /** Where it begins in each, and how long it is. */
  readonly at: { readonly earlier: number; readonly later: number };
  readonly length: number;
}

/**
 * @param casts    in order of time
 * @param bottles  by cast id
 * @param cells    by whose readings the cast that the salinities belong to is found, the first choice first
 * @param readerOf what a cast read as some of its bottles closed; from its scans where absent
 * @returns for each bottle whose salinity is another cast's, why, in plain words
 */
export function copiedSalinities(
  casts: readonly CruiseCast[],
  bottles: ReadonlyMap<string, readonly Bottle[]>,
  cells: readonly CellName[],
  readerOf: ReaderOf = fromItsScans,
): ReadonlyMap<Bottle, string> {
  const all = casts.flatMap((cast): Series[] => {
    const measured = (bottles.get(cast.id) ?? []).filter(({ salinity }) => salinity > 0);
    return measured.length < fewest ? [] : [{ cast, bottles: inOrder(measured) }];
  });
  const step = resolution(all.flatMap((series) => series.bottles.map(({ salinity }) => salinity)));
  const compared = all.reduce((sum, series, i) => sum + i * series.bottles.length, 0);
  const copied = new Map<Bottle, string>();
  for (const run of equalRuns(all)) {
    const { earlier, later, at, length } = run;
    const there = readings(earlier, at.earlier, length, cells, readerOf);
    const here = readings(later, at.later, length, cells, readerOf);
    if (!(compared * chanceOf(there, here, step) < improbable)) continue;
    // The salinities belong where they follow the CTD; where neither tells, where they stood first.
    const copy = scatter(there) > scatter(here) ? "earlier" : "later";
    const original = copy === "later" ? earlier : later;
    const why = `copied: ${length} bottles in a row have the salinities of cast ${original.cast.id}`;
    for (const bottle of run[copy].bottles.slice(at[copy], at[copy] + length)) {
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

/** The longest equal sequences of each cast with those before it, found by their first values. */
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

type ReaderOf = (cast: CruiseCast, bottles: readonly Bottle[]) => Pick<ClosureReader, "of">;

function fromItsScans({ data, start }: CruiseCast, bottles: readonly Bottle[]): ClosureReader {
  return closureReader(data, bottles, start === undefined ? {} : { start });
}

interface Reading {
  /** Of the CTD, NaN where it did not read. */
  readonly ctd: number;
  readonly laboratory: number;
}

function readings(
  { cast, bottles }: Series,
  from: number,
  length: number,
  cells: readonly CellName[],
  readerOf: ReaderOf,
): readonly Reading[] {
  const own = bottles.slice(from, from + length);
  const reader = readerOf(cast, own);
  return own.map((bottle) => {
    const found = cells.flatMap((cell) => reader.of(bottle, cell) ?? [])[0];
    const ctd =
      found === undefined
        ? Number.NaN
        : spFromC(found.conductivity_mS_cm, found.temperature_C, found.pressure_dbar);
    return { ctd, laboratory: bottle.salinity };
  });
}

/**
 * The probability that sound samples of both casts come out equal, all of them: by how far the CTD says that the waters
 * differ, a change of the cell from the one cast to the other apart.
 */
function chanceOf(there: readonly Reading[], here: readonly Reading[], step: number): number {
  const differences = here.map(({ ctd }, i) => ctd - there[i]!.ctd);
  const usual = median(differences);
  // As often equal as of the best laboratory, as far apart as of an ordinary one: never less than chance has it.
  const peak = 1 / (Math.SQRT2 * bestLaboratory);
  const sd = Math.SQRT2 * laboratorySalinity;
  return differences.reduce((product, difference) => {
    const away = Number.isFinite(difference) ? (difference - usual) / sd : 0;
    return product * Math.min(1, step * (peak * normalPdf(away) + straysDensity));
  }, 1);
}

/** How far the salinities are from following the CTD; -1 where it did not read. */
function scatter(readings: readonly Reading[]): number {
  const scale = madScale(readings.map(({ ctd, laboratory }) => laboratory - ctd));
  return Number.isNaN(scale) ? -1 : scale;
}

/** To how many decimals salinities are written: the fewest, three at the least, that hold all but a few (judgement: nine in ten). */
function resolution(salinities: readonly number[]): number {
  for (const step of [1e-3, 1e-4]) {
    const whole = salinities.filter(
      (value) => Math.abs(value / step - Math.round(value / step)) < 1e-6,
    );
    if (whole.length >= 0.9 * salinities.length) return step;
  }
  return 1e-5;
}
