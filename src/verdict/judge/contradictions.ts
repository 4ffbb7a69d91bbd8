// A verdict that contradicts its own evidence says so: each line's mean residual against the final estimate.
import { group } from "d3-array";
import type { CellName } from "../../cast/cast.js";
import { lineInWords } from "../../causes/sentences.js";
import type { Place } from "../../model/course.js";
import { rowOf } from "../../model/designRow.js";
import { type Gaussian, projected } from "../../model/gaussian.js";
import type { Hypothesis } from "../../model/hypothesis.js";
import type { Layout } from "../../model/layout.js";
import { type Observation, seesGainOf } from "../../model/observation.js";
import type { TrackedInput } from "../../track/tracked.js";
import type { CellVerdict } from "../verdict.js";

/** A line beyond this many standard deviations of the verdict contradicts it (judgement: one in 16 000 by chance, of few lines). */
export const contradicts = 4;
/** Beside the errors that its observations state, a line is never known better than this, ppm (judgement). */
const floor_ppm = 5;

/** The mean residual of a line on one cast. */
export interface LineResidual {
  readonly line: string;
  /** Observed less expected, weighted mean over the line, in the unit of the line. */
  readonly residual: number;
  /** The same in its standard deviations: the line's own and the verdict's together. */
  readonly standardised: number;
}

/**
 * Against the most probable hypothesis: what it holds to have happened is what the verdict says. Where within the cast
 * something came, the place is taken that fits the lines best.
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
  const seen = input.observations.filter((one) => seesGainOf(one, cell));
  const fits = placesOf(layout, input).map((onsets) => {
    const lines = [...group(seen, ({ line }) => line)].map(([line, own]) =>
      residualOf(layout, state, line, own, onsets, input.path),
    );
    return { lines, squares: lines.reduce((sum, one) => sum + one.standardised ** 2, 0) };
  });
  return fits.reduce((a, b) => (b.squares < a.squares ? b : a)).lines;
}

type Onsets = Readonly<Partial<Record<CellName, Place>>>;

/** Every combination of the places at which something may have come into each cell; at the turn where none was seen. */
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
  const precision = own.reduce((sum, { variance }) => sum + 1 / variance, 0);
  const row = new Float64Array(layout.size);
  let value = 0;
  for (const one of own) {
    const share = 1 / one.variance / precision;
    value += share * one.value;
    const weights = rowOf(layout, one, { onsets }, path);
    for (let k = 0; k < row.length; k++) row[k]! += share * weights[k]!;
  }
  const expected = projected(state, row);
  const residual = value - expected.mean;
  const spread = Math.sqrt(1 / precision + expected.variance + floor_ppm ** 2);
  return { line, residual, standardised: residual / spread };
}

/** One sentence for each line that the verdict on a cell contradicts: the two sides, and by how much. */
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
