// Whether a verdict is settled: one cause, or one action for the cell, is practically certain.
import type { CellName } from "../../cast/cast.js";
import { causeOf } from "../../causes/causeOf.js";
import { type CauseName, causeNamed, causes } from "../../causes/index.js";
import { gainRow } from "../../model/designRow.js";
import { type Hypothesis, mixtureOf } from "../../model/hypothesis.js";
import type { Layout } from "../../model/layout.js";
import { mixtureStandardDeviation } from "../../statistics/mixture.js";

/**
 * Smallest probability of a cause or an action that settles a verdict (judgement; equal to the required confidence of a
 * cleaning).
 */
export const settledFrom = 0.9;

/** The standing of a verdict. */
export interface Standing {
  /** Probability of the most probable cause, 0 to 1. */
  readonly leading: number;
  readonly settled: boolean;
}

/** The action that a cause needs. Causes with the same action need not be distinguished. */
export function choiceOf(cause: CauseName): CauseName {
  return causeNamed(cause).isCorrectedOnly ? "sound" : cause;
}

/**
 * @param hypotheses       hypotheses whose weights sum to one
 * @param target_ppm the gain must be known to half of it for a correction
 */
export function standingOf(
  layout: Layout,
  cell: CellName,
  hypotheses: readonly Hypothesis[],
  target_ppm: number,
): Standing {
  const byCause = new Map<CauseName, number>();
  for (const hypothesis of hypotheses) {
    const cause = causeOf(layout, hypothesis, cell);
    byCause.set(cause, (byCause.get(cause) ?? 0) + Math.exp(hypothesis.logWeight));
  }
  const of = (cause: CauseName) => Math.min(1, byCause.get(cause) ?? 0);
  const leading = Math.max(...causes.map(({ name }) => of(name)));
  if (leading >= settledFrom) return { leading, settled: true };
  const standing = causes.reduce(
    (sum, { name, isCorrectedOnly }) => (isCorrectedOnly ? sum + of(name) : sum),
    0,
  );
  if (standing < settledFrom) return { leading, settled: false };
  // Whether the gain is known well enough to correct the cell by it.
  const gain = mixtureOf(hypotheses, gainRow(layout, cell, "up"));
  return { leading, settled: mixtureStandardDeviation(gain) < target_ppm / 2 };
}
