// Update: condition one proposal under one hypothesis on all rows of the cast.
import type { CellName } from "../cast/cast.js";
import type { Coefficient, Proposal } from "../model/cause.js";
import { cellEvents, type Doubt, type EventHistory } from "../model/eventHistory.js";
import { extend } from "../model/extend.js";
import {
  assign,
  condition,
  type Gaussian,
  logNotPositive,
  redraw,
  truncateNotPositive,
  widen,
} from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import { type CellSlot, cellIndex, type Layout, sharedIndex } from "../model/layout.js";
import type { Noise } from "../model/noise.js";
import type { Rows } from "../model/rows.js";
import type { FilterStep } from "../model/updates.js";
import { retain } from "./maintain.js";

/** @param logPrior of the proposal, relative to all proposals for the hypothesis */
export function update(
  layout: Layout,
  hypothesis: Hypothesis,
  proposal: Proposal,
  logPrior: number,
  rows: Rows,
  noise: Noise,
): Hypothesis {
  const { events = hypothesis.events, doubts, shed, redrawnClean, coefficients } = proposal;
  const step = {
    kind: "update",
    logOdds: logPrior + (proposal.logResponse ?? 0),
    proposal: {
      coefficients,
      ...(shed === undefined ? {} : { shed }),
      ...(redrawnClean === undefined ? {} : { redrawnClean }),
    },
    rows,
    filmed: filmed(layout, hypothesis, proposal),
  } as const;
  return extend(
    hypothesis,
    step,
    (state) => performUpdate(layout, state, step, noise),
    doubts === undefined ? events : withDoubts(events, doubts),
  );
}

/** A doubt that lasts from the cast before is kept together with new ones of other causes. */
function withDoubts(events: EventHistory, doubts: readonly Doubt[]): EventHistory {
  const lasting = (events.doubts ?? []).filter(
    ({ cause }) => !doubts.some((doubt) => doubt.cause === cause),
  );
  return { ...events, doubts: [...lasting, ...doubts] };
}

/**
 * Changes the state in place.
 * @returns the log density of the rows, including the prior of the proposal
 */
export function performUpdate(
  layout: Layout,
  state: Gaussian,
  { logOdds, proposal, rows: given, filmed }: Extract<FilterStep, { kind: "update" }>,
  noise: Noise,
): number {
  const { coefficients } = proposal;
  const { rows, values, variances, logConstant } = given;
  changeState(layout, state, proposal, noise);
  for (const coefficient of coefficients) {
    widen(state, directionOf(layout, coefficient), 0, coefficient.sd ** 2);
  }
  let logDensity = logConstant;
  for (const cell of filmed) logDensity -= logNegativeFilm(layout, state, cell);
  for (const [i, row] of rows.entries()) {
    logDensity += condition(state, row, values[i]!, variances[i]!);
  }
  for (const cell of filmed) logDensity += logNegativeFilm(layout, state, cell);
  for (const { notPositive, acts } of coefficients) {
    if (notPositive === undefined) continue;
    // A half-normal prior has twice the density of the normal on its side. A coefficient that acts on both cells is not
    // positive in either.
    logDensity += Math.LN2;
    for (const cell of cellsOf(acts))
      logDensity += truncateNotPositive(state, cellIndex(layout, cell, sizeSlot(acts, cell)));
  }
  return logOdds + logDensity;
}

/** Shed the film, or draw the clean gain anew, before the coefficients of a proposal. Changes the state in place. */
export function changeState(
  layout: Layout,
  state: Gaussian,
  { shed, redrawnClean }: Pick<Proposal, "shed" | "redrawnClean">,
  noise: Noise,
): void {
  if (shed !== undefined) {
    const node = shed.when === "before" ? "filmDown" : "filmUp";
    for (const cell of shed.cells) {
      retain(layout, state, cell, node, shed.retained);
      if (node === "filmDown") {
        const [up, down] = [cellIndex(layout, cell, "filmUp"), cellIndex(layout, cell, node)];
        assign(state, up, down, 1, noise.film ** 2);
      }
    }
  }
  if (redrawnClean !== undefined) {
    redraw(state, cellIndex(layout, redrawnClean.cell, "clean"), 0, redrawnClean.sd ** 2);
    redraw(state, cellIndex(layout, redrawnClean.cell, "cleanRate"), 0, 0);
  }
}

/** The slots that a layer of film acts on; a drift, or what comes within a cast and leaves again, acts on none of them. */
const filmSlots: ReadonlySet<CellSlot> = new Set(["filmDown", "filmUp", "filmRate"]);

/** The cells with an earlier film and no new layer; a new layer has its own sign constraint in its prior. */
function filmed(
  { cells }: Layout,
  { events }: Hypothesis,
  { coefficients }: Proposal,
): readonly CellName[] {
  return cells.filter(
    (cell) =>
      cellEvents(events, cell).film !== undefined &&
      !coefficients.some(
        ({ notPositive, acts }) =>
          notPositive !== undefined &&
          acts.some((act) => "cell" in act && act.cell === cell && filmSlots.has(act.slot)),
      ),
  );
}

/** The slot that holds the size of a coefficient. Beside a transient, which uses the first, it is the film. */
function sizeSlot(acts: Coefficient["acts"], cell: CellName): CellSlot {
  const isEvent = acts.some((act) => "cell" in act && act.cell === cell && act.slot === "event");
  return isEvent ? "event" : "filmUp";
}

/** The cells that a coefficient acts on. */
function cellsOf(acts: Coefficient["acts"]): ReadonlySet<CellName> {
  return new Set(acts.flatMap((act) => ("cell" in act ? [act.cell] : [])));
}

/** Log weight of a practically impossible state; finite, so that differences are defined (judgement). */
const impossible = -1000;

/**
 * Log of the probability that a film reads fresh, and grows if it changes: by definition nothing else is a film. The change
 * of this value by the rows of a cast is evidence for or against a film.
 */
function logNegativeFilm(layout: Layout, state: Gaussian, cell: CellName): number {
  const least = Math.min(
    ...(["filmUp", "filmRate"] as const).map((slot) =>
      logNotPositive(state, cellIndex(layout, cell, slot)),
    ),
  );
  return Math.max(impossible, least);
}

/** The effect of a coefficient of one on each slot of the state. */
export function directionOf(layout: Layout, { acts }: Coefficient): Float64Array {
  const direction = new Float64Array(layout.size);
  for (const act of acts) {
    const index =
      "shared" in act ? sharedIndex(layout, act.shared) : cellIndex(layout, act.cell, act.slot);
    direction[index] = act.weight;
  }
  return direction;
}
