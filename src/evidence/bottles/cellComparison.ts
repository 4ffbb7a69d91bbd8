// The bottles of one cast compared with one cell: the bottles that agree with the rest of the cast, and the better
// reference cell.
import { sum } from "d3-array";
import type { Bottle } from "../../cast/bottle.js";
import type { CellName } from "../../cast/cast.js";
import { median } from "../../statistics/robustCentre.js";
import type { BottleNoise } from "./bottleNoise.js";
import type { BottleComparison, CellComparisons } from "./bottleResiduals.js";
import { type CastFit, fitCast, leaveOutBeyond } from "./castFit.js";

/** Smaller errors are taken as normal; for larger ones the variance grows in proportion [Huber1964]. */
const normalWithin = 2;
/**
 * With too few other bottles for comparison, a bottle that is this far off holds different water: 1 % of conductivity, ppm
 * (judgement).
 */
const otherWater_ppm = 10_000;
/**
 * A cell is erratic relative to another if the bottles scatter against it by more than chance and by this factor more. A
 * bottle that is off by this factor more from one cell is a stray of that cell (judgement: an error of the bottle shows
 * equally against both).
 */
const moreErratic = 2;
/**
 * A cell is the better reference if the mean of the bottles is this much more precise against it, as a factor of the variance: the
 * other cell is slow, and the heat in it makes its readings at closure uncertain (judgement).
 */
const morePrecise = 1.5;
/** Only a cell with readings at this share of the closures or more replaces the first choice (judgement). */
const nearlyAll = 0.8;

export interface Judged {
  readonly closure: BottleComparison;
  /** Distance from the centre of the cast, in standard deviations. */
  readonly distance: number;
  /** The same in ppm. */
  readonly away_ppm: number;
  readonly variance: number;
  /** The reason why it is excluded for this cell; absent if it is used. */
  readonly stray?: string;
}

export interface CellComparison {
  readonly cell: CellName;
  readonly fit: CastFit;
  readonly judged: ReadonlyMap<Bottle, Judged>;
}

/** @param noise of the cruise's bottles */
export function compareWithCell(
  bottles: readonly CellComparisons[],
  cell: CellName,
  noise: BottleNoise,
): CellComparison {
  const closures = bottles.flatMap((one) => one.find((residual) => residual.cell === cell) ?? []);
  const fit = fitCast(closures, noise);
  const judged = closures.map((closure, i): readonly [Bottle, Judged] => {
    const distance = Math.abs(fit.z[i]!);
    const widen = Math.max(1, distance / normalWithin);
    const stray = whyStray(closure, distance, fit, i);
    const variance = fit.sigma[i]! ** 2 * widen;
    const away_ppm = distance * fit.sigma[i]!;
    return [
      closure.bottle,
      { closure, distance, away_ppm, variance, ...(stray === undefined ? {} : { stray }) },
    ];
  });
  return { cell, fit, judged: new Map(judged) };
}

function whyStray(
  { residual }: BottleComparison,
  distance: number,
  { degreesOfFreedom, sigma }: CastFit,
  i: number,
): string | undefined {
  if (degreesOfFreedom === 0 && Math.abs(residual) > otherWater_ppm) {
    return `${residual.toFixed(0)} ppm, with too few bottles for comparison: other water`;
  }
  if (distance <= leaveOutBeyond) return undefined;
  return (
    `${residual.toFixed(0)} ppm, ${distance.toFixed(1)} standard deviations (of ${sigma[i]!.toFixed(0)} ppm) ` +
    "from the cast's other bottles"
  );
}

/**
 * The cells in the order in which bottles are compared with them: as given, except that erratic and slow cells come after the
 * others.
 */
export function calmFirst(cells: readonly CellComparison[]): readonly CellComparison[] {
  const read = cells.filter(({ judged }) => judged.size > 0);
  const first = read[0];
  if (first === undefined) return [];
  const better = read.find((other) => isErratic(first, other) || isMorePrecise(other, first));
  return better === undefined ? read : [better, ...read.filter((one) => one !== better)];
}

function isMorePrecise(other: CellComparison, one: CellComparison): boolean {
  const read = [...one.judged.keys()].filter((bottle) => other.judged.has(bottle));
  // By what is known of each reading alone: strays and scatter may be errors of the bottles, or a film.
  const precisionOf = ({ judged }: CellComparison) =>
    sum(read, (bottle) => {
      const { laboratory, gradient, reading } = judged.get(bottle)!.closure;
      return 1 / (laboratory ** 2 + gradient ** 2 + reading ** 2);
    });
  return readsNearlyAll(other, one) && precisionOf(other) > morePrecise * precisionOf(one);
}

function readsNearlyAll(other: CellComparison, one: CellComparison): boolean {
  return other.judged.size >= nearlyAll * one.judged.size;
}

/**
 * Whether the bottles scatter against the one cell and not against the other. Two bottles can show it, because an error of a
 * bottle shows equally against both cells.
 */
export function isErratic(one: CellComparison, other: CellComparison): boolean {
  return (
    one.fit.scattered &&
    one.fit.scatter > moreErratic * other.fit.scatter &&
    readsNearlyAll(other, one)
  );
}

/**
 * Another cell that agrees with a bottle which is a stray for this one, while the two cells differ there by more than beside the
 * other bottles: then the error is this cell's. An error of the bottle would show equally against both.
 */
export function agreesWith(
  bottle: Bottle,
  { away_ppm }: Judged,
  own: CellComparison,
  others: readonly CellComparison[],
): CellComparison | undefined {
  return others.find((other) => {
    const there = other.judged.get(bottle);
    if (there === undefined || there.stray !== undefined) return false;
    const apart = (each: Bottle) =>
      (own.judged.get(each)?.closure.residual ?? Number.NaN) -
      (other.judged.get(each)?.closure.residual ?? Number.NaN);
    const usual = median([...own.judged.keys()].map(apart));
    return (
      other.fit.degreesOfFreedom > 0 &&
      moreErratic * there.away_ppm < away_ppm &&
      moreErratic * Math.abs(apart(bottle) - usual) > away_ppm
    );
  });
}
