// The initial states of a cell: sound, with an old calibration, already fouled, or with a pressure response. The same states
// are possible after a cell is exchanged or calibrated in mid-cruise.
import type { CellName } from "../cast/cast.js";
import { causes } from "../causes/index.js";
import { goodCalibration, goodClean_ppm } from "../causes/limits.js";
import type { InitialState } from "../model/cause.js";
import { type CellPrior, type CellPriors, withCellPrior } from "../model/cellPrior.js";
import { type Since, withCellEvents } from "../model/eventHistory.js";
import { extend } from "../model/extend.js";
import { assign, type Gaussian, redraw, truncateNotPositive, widen } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import { type CellSlot, cellIndex, type Layout } from "../model/layout.js";
import type { FilterStep } from "../model/updates.js";
import { initialStatesOf } from "./initialStates.js";

/** The zero reading in air of a sound cell, standard deviation, uS/cm (judgement). */
const offsetSd = 0.1;

/** Combine every hypothesis with every initial state of the cell. */
export function initialiseCell(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
  since: Since,
  cellPrior?: CellPrior,
): readonly Hypothesis[] {
  return initialStatesOf(since, cellPrior).flatMap(({ initialState, events }) =>
    hypotheses.map((hypothesis) =>
      extend(
        hypothesis,
        { kind: "begin", cell, initialState } as const,
        (state, step) => performInitialise(layout, state, step),
        withCellEvents(hypothesis.events, cell, events),
      ),
    ),
  );
}

/**
 * Standard deviation of the difference of two cells that begin alike: clean gain, ppm, and film as a share of its size
 * (judgement).
 */
const differenceOfCells = { clean_ppm: goodClean_ppm, filmShare: 0.4 };

/** The cells of a package at the start of a cruise: independent, or with a common error. */
export function initialiseCruise(
  layout: Layout,
  start: Hypothesis,
  since: Since,
  priors: CellPriors,
): readonly Hypothesis[] {
  const [first, second] = layout.cells;
  const independent = layout.cells.reduce<readonly Hypothesis[]>(
    (all, cell) => initialiseCell(layout, all, cell, since, priors[cell]),
    [start],
  );
  if (first === undefined || second === undefined) return independent;
  const together = causes.flatMap(({ initialStates = [], initialEvents }) =>
    initialStates.flatMap((initialState) => {
      if (initialState.priorOfBoth === undefined) return [];
      const events = [first, second].reduce(
        (all, cell) => withCellEvents(all, cell, initialEvents?.(since) ?? {}),
        start.events,
      );
      return stepsOfBoth(initialState, priors[first], priors[second]).map((step) =>
        extend(start, step, (state) => performInitialiseBoth(layout, state, step), events),
      );
    }),
  );
  return [...independent, ...together];
}

type InitialiseBoth = Extract<FilterStep, { kind: "begin-alike" }>;

/**
 * Initial states with the same event in both cells. For a film, the clean gain of either cell, or of both, may be known from
 * earlier cruises.
 */
function stepsOfBoth(
  initialState: InitialState,
  first: CellPrior | undefined,
  second: CellPrior | undefined,
): readonly InitialiseBoth[] {
  const prior = initialState.priorOfBoth ?? 0;
  const good = { ...initialState, ...goodCalibration };
  const [p, q] = [first?.probability ?? 0, second?.probability ?? 0];
  const kind = "begin-alike";
  const neither = { kind, initialState, second: good, cleanAlike: true } as const;
  const steps: InitialiseBoth[] = [{ ...neither, prior: prior * (1 - p) * (1 - q) }];
  if (initialState.filmSd === undefined) return steps;
  const mixes = [
    [first, undefined, p * (1 - q)],
    [undefined, second, (1 - p) * q],
    [first, second, p * q],
  ] as const;
  for (const [one, other, share] of mixes) {
    if (share === 0) continue;
    steps.push({
      kind,
      initialState: one === undefined ? initialState : withCellPrior(initialState, one),
      second: other === undefined ? good : withCellPrior(good, other),
      cleanAlike: false,
      prior: prior * share,
    });
  }
  return steps;
}

/** Changes `state` in place. */
export function performInitialise(
  layout: Layout,
  state: Gaussian,
  { cell, initialState }: Extract<FilterStep, { kind: "begin" }>,
): number {
  return drawInitialState(layout, state, cell, initialState);
}

/** Changes `state` in place, for both cells of a package of two. */
export function performInitialiseBoth(
  layout: Layout,
  state: Gaussian,
  { initialState, second: ofSecond, cleanAlike, prior }: InitialiseBoth,
): number {
  const [first, second] = layout.cells as readonly [CellName, CellName];
  const { filmSd } = initialState;
  drawInitialState(layout, state, second, ofSecond);
  drawInitialState(layout, state, first, initialState);
  const at = (cell: CellName, slot: CellSlot) => cellIndex(layout, cell, slot);
  if (cleanAlike)
    assign(state, at(second, "clean"), at(first, "clean"), 1, differenceOfCells.clean_ppm ** 2);
  if (filmSd !== undefined) {
    const own = (differenceOfCells.filmShare * filmSd) ** 2;
    assign(state, at(second, "filmDown"), at(first, "filmDown"), 1, own);
    assign(state, at(second, "filmUp"), at(second, "filmDown"), 1, 0);
  }
  return Math.log(prior);
}

/** Changes `state` in place. */
function drawInitialState(
  layout: Layout,
  state: Gaussian,
  cell: CellName,
  initialState: InitialState,
): number {
  const { prior, cleanSd, pressureSd, thermometerSd = 0, filmSd } = initialState;
  const { cleanMean = 0, pressureMean = 0, filmMean = 0 } = initialState;
  const at = (slot: CellSlot) => cellIndex(layout, cell, slot);
  for (const slot of ["cleanRate", "filmDown", "filmUp", "filmRate", "event"] as const)
    redraw(state, at(slot), 0, 0);
  redraw(state, at("clean"), cleanMean, cleanSd ** 2);
  redraw(state, at("pressure"), pressureMean, pressureSd ** 2);
  redraw(state, at("thermometer"), 0, thermometerSd ** 2);
  redraw(state, at("offset"), 0, (initialState.offsetSd ?? offsetSd) ** 2);
  if (filmSd !== undefined) {
    const direction = new Float64Array(layout.size);
    for (const slot of ["filmDown", "filmUp", "event"] as const) direction[at(slot)] = 1;
    widen(state, direction, filmMean, filmSd ** 2);
    truncateNotPositive(state, at("event"));
    redraw(state, at("event"), 0, 0);
  }
  return Math.log(prior);
}
