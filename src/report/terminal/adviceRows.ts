// Advice, steps, cautions, alternatives, and the outcomes of past cleanings.
import type { Advice } from "../../cleaning/decision/advice.js";
import type { CleaningSeen } from "../../verdict/verdict.js";
import { alternativesTable } from "./alternativesTable.js";
import type { Paint } from "./paint.js";

/** Narrower than the labels, so that the last column of the table has room on a narrow terminal. */
const indent = "  ";

/** A label and the text beside it. */
export type RowWriter = (label: string, text: string) => string;

/** Reason, steps, materials and cautions. */
export function adviceRows(advice: Advice, paint: Paint, row: RowWriter): readonly string[] {
  return [
    row("because", advice.because),
    row("do", advice.action),
    ...advice.steps.map((step, i) => row(i === 0 ? "steps" : "", `${i + 1}. ${step}`)),
    ...advice.materials.map((material, i) => row(i === 0 ? "materials" : "", material)),
    ...advice.cautions.map((caution, i) =>
      row(i === 0 ? "cautions" : "", paint.warn(`! ${caution}`)),
    ),
  ];
}

/**
 * The six intensities side by side, and the changes that would alter the choice.
 * @param width columns of the terminal
 */
export function contradictionRows(
  advice: Advice,
  paint: Paint,
  row: RowWriter,
  width: number,
): readonly string[] {
  return [
    row(
      "alternatives",
      "minutes of work, probability of being within the target, expected loss in minutes of ship's time",
    ),
    ...alternativesTable(advice.alternatives, advice.intensity, paint, width - indent.length).map(
      (line) => `${indent}${line}`,
    ),
    ...advice.sensitivity.map((sentence, i) => row(i === 0 ? "what if" : "", sentence)),
  ];
}

/** "the soak after cast 008 left 0.48 ± 0.09 of the film in the primary cell". */
export function cleanedRows(cleaned: readonly CleaningSeen[], row: RowWriter): readonly string[] {
  return cleaned.map(({ afterCast, cell, intensity, retained, standardUncertainty }) =>
    row(
      "cleaned",
      `the ${intensity} after cast ${afterCast} left ${retained.toFixed(2)} ± ` +
        `${standardUncertainty.toFixed(2)} of the film in the ${cell} cell`,
    ),
  );
}
