// Whether a cell's verdict is open, and what would settle it.
import { laboratorySalinity } from "../evidence/bottleNoise.js";
import { gainRow } from "../track/state.js";
import { byCause, type CellContext } from "./cellVerdict.js";
import { estimate, mixtureOf } from "./estimate.js";
import { gainForSalinity } from "./salinityError.js";
import type { CauseProbability } from "./verdict.js";
import { type Expectation, wouldDecide } from "./wouldDecide.js";

/** @returns no sentence where the verdict is settled, one where it is open */
export function openQuestions(
  { layout, cell, tracked, target_ppm }: CellContext,
  causes: readonly CauseProbability[],
  bottleScale: number,
): readonly string[] {
  const row = gainRow(layout, cell, "up");
  const expectations: Expectation[] = [];
  for (const [cause, members] of byCause(layout, tracked.now, cell)) {
    const total = Math.log(members.reduce((sum, { logWeight }) => sum + Math.exp(logWeight), 0));
    const alone = members.map((h) => ({ ...h, logWeight: h.logWeight - total }));
    const { ppm, standardUncertainty } = estimate(mixtureOf(alone, row));
    expectations.push({ cause, mean: ppm, sd: standardUncertainty });
  }
  const bottle = bottleScale * Math.abs(gainForSalinity(-laboratorySalinity));
  const errors = { bottle, run: tracked.noise.run };
  const gain = estimate(mixtureOf(tracked.now, row));
  const sentence = wouldDecide(cell, causes, expectations, errors, gain, target_ppm);
  return sentence === undefined ? [] : [sentence];
}
