// One proposal under one hypothesis, in full: what the coefficients are then, and how probable it all is.
import type { Coefficient, Proposal } from "../causes/cause.js";
import { retain } from "./betweenCasts.js";
import type { Rows } from "./compress.js";
import { assign, condition, type Gaussian, learnNotPositive, redraw, widen } from "./gaussian.js";
import type { Hypothesis } from "./hypothesis.js";
import type { Noise } from "./noise.js";
import { type Act, goOn } from "./path.js";
import { cellIndex, type Layout, sharedIndex } from "./state.js";

/** @param logPrior of the proposal among all that the hypothesis could have gone on with */
export function weigh(
  layout: Layout,
  hypothesis: Hypothesis,
  proposal: Proposal,
  logPrior: number,
  rows: Rows,
  noise: Noise,
): Hypothesis {
  const { story = hypothesis.story, doubt } = proposal;
  const logOdds = logPrior + (proposal.logResponse ?? 0);
  const act: Act = (state, noise) => logOdds + happen(layout, state, proposal, rows, noise);
  return goOn(hypothesis, noise, act, doubt === undefined ? story : { ...story, doubt });
}

/** In place. @returns the log density of the rows */
function happen(
  layout: Layout,
  state: Gaussian,
  { shed, afresh, coefficients }: Proposal,
  { rows, values, variances, logConstant }: Rows,
  noise: Noise,
): number {
  if (shed !== undefined) {
    const node = shed.when === "before" ? "filmDown" : "filmUp";
    retain(layout, state, shed.cell, node, shed.retained);
    if (node === "filmDown") {
      const [up, down] = [
        cellIndex(layout, shed.cell, "filmUp"),
        cellIndex(layout, shed.cell, node),
      ];
      assign(state, up, down, 1, noise.film ** 2);
    }
  }
  if (afresh !== undefined) {
    redraw(state, cellIndex(layout, afresh.cell, "clean"), 0, afresh.sd ** 2);
  }
  for (const coefficient of coefficients) {
    widen(state, directionOf(layout, coefficient), 0, coefficient.sd ** 2);
  }
  let logDensity = logConstant;
  for (const [i, row] of rows.entries()) {
    logDensity += condition(state, row, values[i]!, variances[i]!);
  }
  for (const { notPositive } of coefficients) {
    if (notPositive === undefined) continue;
    // A half-normal prior has twice the density of the normal on its side.
    logDensity += Math.LN2 + learnNotPositive(state, cellIndex(layout, notPositive, "event"));
  }
  return logDensity;
}

/** What a coefficient of one adds to each slot of the state. */
export function directionOf(layout: Layout, { acts }: Coefficient): Float64Array {
  const direction = new Float64Array(layout.size);
  for (const act of acts) {
    const index =
      "shared" in act ? sharedIndex(layout, act.shared) : cellIndex(layout, act.cell, act.slot);
    direction[index] = act.weight;
  }
  return direction;
}
