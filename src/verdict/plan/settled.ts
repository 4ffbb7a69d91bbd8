// Whether a verdict is settled: one cause, or one thing to do about the cell, is as good as certain.
import type { CellName } from "../../cast/cast.js";
import type { CauseName } from "../../model/causeNames.js";
import { causeOf, type Hypothesis } from "../../model/hypothesis.js";
import { gainRow, type Layout } from "../../model/state.js";
import { mixtureStandardDeviation } from "../../statistics/mixture.js";
import { mixtureOf } from "../judge/estimate.js";

/** A cause, or a choice, of at least this probability settles a verdict (judgement; the confidence asked of a cleaning). */
export const settledFrom = 0.9;

/** Hypotheses less probable than this settle and unsettle nothing. */
const tooLittle = 1e-4;

/** How a verdict stands. */
export interface Standing {
  /** Of the most probable cause, 0 to 1. */
  readonly leading: number;
  readonly settled: boolean;
}

/**
 * All of these leave the cell as it is and correct it by its gain, so that it matters little which it is once the gain
 * is known. Every other cause asks for something of its own.
 */
const leftAndCorrected: readonly CauseName[] = [
  "sound",
  "calibration-shift",
  "pressure-response",
  "water",
];

/** What is to be done about a cause: causes of one choice need not be told apart. */
export function choiceOf(cause: CauseName): CauseName {
  return leftAndCorrected.includes(cause) ? "sound" : cause;
}

/**
 * @param held       hypotheses whose weights sum to one
 * @param target_ppm half of it is how well a gain must be known for a correction by it
 */
export function standingOf(
  layout: Layout,
  cell: CellName,
  held: readonly Hypothesis[],
  target_ppm: number,
): Standing {
  const byCause = new Map<CauseName, number>();
  for (const hypothesis of held) {
    const weight = Math.exp(hypothesis.logWeight);
    if (weight < tooLittle) continue;
    const cause = causeOf(layout, hypothesis, cell);
    byCause.set(cause, (byCause.get(cause) ?? 0) + weight);
  }
  const leading = Math.max(...byCause.values());
  if (leading >= settledFrom) return { leading, settled: true };
  const standing = leftAndCorrected.reduce((sum, cause) => sum + (byCause.get(cause) ?? 0), 0);
  const settled = standing >= settledFrom && gainIsKnown(layout, cell, held, target_ppm);
  return { leading, settled };
}

/** Whether the gain is known well enough to correct the cell by it. */
function gainIsKnown(
  layout: Layout,
  cell: CellName,
  held: readonly Hypothesis[],
  target_ppm: number,
): boolean {
  const gain = mixtureOf(held, gainRow(layout, cell, "up"));
  return mixtureStandardDeviation(gain) < target_ppm / 2;
}
