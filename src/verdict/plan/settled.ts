// Whether a verdict is settled: one cause, or one action for the cell, is practically certain.
import type { CellName } from "../../cast/cast.js";
import { type CauseName, causeNamed, causes } from "../../causes/index.js";
import type { Hypothesis } from "../../model/hypothesis.js";
import type { Layout } from "../../model/layout.js";
import { mixtureStandardDeviation } from "../../statistics/mixture.js";
import { cellView } from "../../track/cellView.js";

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

/** The action that a cause needs: causes with the same action need not be told apart. */
export function choiceOf(cause: CauseName): CauseName {
  return causeNamed(cause).leftAndCorrected ? "sound" : cause;
}

/**
 * @param held       hypotheses whose weights sum to one
 * @param target_ppm the gain must be known to half of it for a correction
 */
export function standingOf(
  layout: Layout,
  cell: CellName,
  held: readonly Hypothesis[],
  target_ppm: number,
): Standing {
  const view = cellView(layout, held, cell);
  const byCause = view.causes();
  const leading = Math.max(...byCause.values());
  if (leading >= settledFrom) return { leading, settled: true };
  const standing = causes.reduce(
    (sum, { name, leftAndCorrected }) => (leftAndCorrected ? sum + (byCause.get(name) ?? 0) : sum),
    0,
  );
  // Whether the gain is known well enough to correct the cell by it.
  const known = mixtureStandardDeviation(view.gain("up")) < target_ppm / 2;
  const settled = standing >= settledFrom && known;
  return { leading, settled };
}
