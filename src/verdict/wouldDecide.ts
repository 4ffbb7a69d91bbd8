// What would settle an open verdict, worked out from how far apart its leading causes expect the evidence.

import type { CellName } from "../cast/cast.js";
import type { CauseName } from "../causes/causeNames.js";
import type { CauseProbability, Estimate } from "./verdict.js";

/** A verdict is open while its leading cause has less than this. */
const settled = 0.9;
/** Bottles beyond this are not closed for one question. */
const mostBottles = 24;

/** ppm. */
export interface ReferenceErrors {
  readonly bottle: number;
  readonly run: number;
}

/** What a cause expects of the uniform gain that the next station's bottles would show. */
export interface Expectation {
  readonly cause: CauseName;
  /** ppm. */
  readonly mean: number;
  readonly sd: number;
}

/**
 * The sampling that would bring the leading cause to 90 % against the next one, or leave it behind.
 * @param errors       standard deviations on this cruise, ppm: of one deep bottle by itself, and what a laboratory run shares
 * @param gain         the cell's gain as it stands
 * @returns a sentence, or undefined where the verdict is settled
 */
export function wouldDecide(
  cell: CellName,
  causes: readonly CauseProbability[],
  expectations: readonly Expectation[],
  errors: ReferenceErrors,
  gain: Estimate,
  target_ppm: number,
): string | undefined {
  const [first, second] = causes;
  if (first === undefined) return undefined;
  if (first.cause === "undetermined" && causes.length === 1) {
    return `Reference bottles on the next cast, in calm deep water, would give a first verdict on the ${cell} cell.`;
  }
  if (second === undefined || first.probability >= settled) return undefined;
  if (sameConsequence(first.cause, second.cause) && gain.standardUncertainty < target_ppm / 2) {
    return undefined;
  }
  const a = expectations.find(({ cause }) => cause === first.cause);
  const b = expectations.find(({ cause }) => cause === second.cause);
  if (a === undefined || b === undefined) return undefined;
  const question = `${first.cause} (${percent(first)}) and ${second.cause} (${percent(second)}) of the ${cell} cell`;
  const bottles = bottlesToSeparate(a, b, first.probability / second.probability, errors);
  if (bottles !== undefined) {
    return (
      `${bottles} reference bottles in the calmest deep water of the next cast would separate ${question}: ` +
      `they expect gains ${Math.abs(a.mean - b.mean).toFixed(0)} ppm apart.`
    );
  }
  return (
    `Bottles on one more cast would not separate ${question}: both expect the next cast to read alike. ` +
    (cleaningSeparates(first.cause, second.cause)
      ? "A wash and the cast after it would: a film goes, a shift stays."
      : "A second laboratory run of this cast's samples, or the other cell on the same water, would.")
  );
}

/**
 * Bottles n for which the expected log likelihood ratio, (difference)^2 / (2 variance), brings the odds to
 * nine to one; each bottle has its own error, all share the run's.
 */
function bottlesToSeparate(
  a: Expectation,
  b: Expectation,
  odds: number,
  { bottle, run }: ReferenceErrors,
): number | undefined {
  const needed = Math.max(0.5, Math.log(9) - Math.log(Math.max(1, odds)));
  const difference = a.mean - b.mean;
  const allowed = difference ** 2 / (2 * needed) - run ** 2 - (a.sd ** 2 + b.sd ** 2) / 2;
  if (allowed <= 0) return undefined;
  const count = Math.max(2, Math.ceil(bottle ** 2 / allowed));
  return count <= mostBottles ? count : undefined;
}

/** Whether both say the same of the cell: correct it by its gain, do not clean it. */
function sameConsequence(first: CauseName, second: CauseName): boolean {
  const standing: readonly CauseName[] = ["sound", "calibration-shift", "pressure-response"];
  return standing.includes(first) && standing.includes(second);
}

function cleaningSeparates(first: CauseName, second: CauseName): boolean {
  return (first === "fouling") !== (second === "fouling");
}

function percent({ probability }: CauseProbability): string {
  return `${(100 * probability).toFixed(0)} %`;
}
