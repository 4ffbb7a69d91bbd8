// Notes if a verdict contradicts its own evidence: the mean residual of each line against the final estimate.
import { group, sum } from "d3-array";
import type { CellName } from "../../cast/cast.js";
import { lineInWords } from "../../causes/sentences.js";
import { designRow } from "../../model/designRow.js";
import { type Gaussian, projected } from "../../model/gaussian.js";
import type { Hypothesis } from "../../model/hypothesis.js";
import type { Layout } from "../../model/layout.js";
import { type Observation, observesGainOf } from "../../model/observation.js";
import type { PlaceOnCast } from "../../model/placesOnCast.js";
import type { TrackedInput } from "../../track/tracked.js";
import type { CellVerdict } from "../verdict.js";

/**
 * A mean residual of this many standard deviations is a contradiction (judgement: one in 16 000 by chance, of few lines).
 */
export const contradicts = 4;
/** Smallest standard uncertainty of a line, in addition to the stated errors of its observations, ppm (judgement). */
const floor_ppm = 5;

/** The mean residual of a line on one cast. */
export interface LineResidual {
  readonly line: string;
  /** Observed minus expected, weighted mean over the line, in the unit of the line. */
  readonly residual: number;
  /** The same, divided by the standard deviation of line and verdict together. */
  readonly standardised: number;
}

/**
 * Residuals against the most probable hypothesis, because the verdict reports its events. For a change within the cast, the
 * place with the best fit is used.
 * @param hypotheses after the cast
 * @param cell       lines that see the gain of this cell
 */
export function lineResiduals(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  input: TrackedInput,
  cell: CellName,
): readonly LineResidual[] {
  const { state } = hypotheses.reduce((a, b) => (b.logWeight > a.logWeight ? b : a));
  const seen = input.observations.filter((one) => observesGainOf(one, cell));
  const fits = placesOf(layout, input).map((onsets) => {
    const lines = [...group(seen, ({ line }) => line)].map(([line, own]) =>
      residualOf(layout, state, line, own, onsets, input.path),
    );
    return { lines, squares: sum(lines, (one) => one.standardised ** 2) };
  });
  return fits.reduce((a, b) => (b.squares < a.squares ? b : a)).lines;
}

type Onsets = Readonly<Partial<Record<CellName, PlaceOnCast>>>;

/** Every combination of the places of a possible change in each cell; the turn for a cell without one. */
function placesOf({ cells }: Layout, { onsets }: TrackedInput): readonly Onsets[] {
  return cells.reduce<readonly Onsets[]>(
    (all, cell) => {
      const pressure_dbar = onsets[cell]?.pressure_dbar;
      if (pressure_dbar === undefined) return all;
      return all.flatMap((others) => [
        others,
        ...(["down", "up"] as const).map((leg) => ({ ...others, [cell]: { leg, pressure_dbar } })),
      ]);
    },
    [{}],
  );
}

function residualOf(
  layout: Layout,
  state: Gaussian,
  line: string,
  own: readonly Observation[],
  onsets: Onsets,
  path: TrackedInput["path"],
): LineResidual {
  const precision = sum(own, ({ variance }) => 1 / variance);
  const row = new Float64Array(layout.size);
  let value = 0;
  for (const one of own) {
    const share = 1 / one.variance / precision;
    value += share * one.value;
    const weights = designRow(layout, one, { onsets }, path);
    for (let k = 0; k < row.length; k++) row[k]! += share * weights[k]!;
  }
  const expected = projected(state, row);
  const residual = value - expected.mean;
  const spread = Math.sqrt(1 / precision + expected.variance + floor_ppm ** 2);
  return { line, residual, standardised: residual / spread };
}

/** One sentence for each line that the verdict on a cell contradicts, with both values and their difference. */
export function contradictionNotes(
  cell: CellName,
  { gainError, contradictions = [] }: CellVerdict,
): readonly string[] {
  return contradictions.map(
    ({ line, residual, standardised }) =>
      `${cell} cell: the verdict (${gainError.up.ppm.toFixed(0)} ppm) and ${lineInWords(line)} do not agree: ` +
      `${residual.toFixed(0)} ppm, ${Math.abs(standardised).toFixed(1)} standard deviations`,
  );
}
