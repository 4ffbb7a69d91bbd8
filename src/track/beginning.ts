// The states in which a cell may begin: sound, with an old calibration, already fouled, or with a pressure response. The
// same states are possible after a cell is exchanged or calibrated in mid-cruise.
import type { CellName } from "../cast/cast.js";
import { causes } from "../causes/index.js";
import { goodBeginning, goodClean_ppm } from "../causes/limits.js";
import { asCarried, type Carried, type CarriedByCell } from "../model/carried.js";
import type { Beginning } from "../model/cause.js";
import { type Since, withCellEvents } from "../model/eventHistory.js";
import { extend } from "../model/extend.js";
import { assign, type Gaussian, learnNotPositive, redraw, widen } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import { type CellSlot, cellIndex, type Layout } from "../model/layout.js";
import type { Step } from "../model/path.js";
import { waysOf } from "./waysToBegin.js";

/** The zero reading in air of a sound cell, standard deviation, uS/cm (judgement). */
const offsetSd = 0.1;

/** Combine every hypothesis with every state in which the cell may begin. */
export function begin(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
  since: Since,
  carried?: Carried,
): readonly Hypothesis[] {
  return waysOf(since, carried).flatMap(({ beginning, events }) =>
    hypotheses.map((hypothesis) =>
      extend(
        hypothesis,
        { kind: "begin", cell, beginning } as const,
        (state, step) => performBegin(layout, state, step),
        withCellEvents(hypothesis.events, cell, events),
      ),
    ),
  );
}

/**
 * Standard deviation of the difference of two cells that begin alike: clean gain, ppm, and film as a share of its size
 * (judgement).
 */
const ownOfEach = { clean_ppm: goodClean_ppm, filmShare: 0.4 };

/** The cells of a package at the start of a cruise: independent, or both off by a common amount. */
export function beginCruise(
  layout: Layout,
  start: Hypothesis,
  since: Since,
  carried: CarriedByCell,
): readonly Hypothesis[] {
  const [first, second] = layout.cells;
  const byThemselves = layout.cells.reduce<readonly Hypothesis[]>(
    (all, cell) => begin(layout, all, cell, since, carried[cell]),
    [start],
  );
  if (first === undefined || second === undefined) return byThemselves;
  const alike = causes.flatMap(({ beginnings, begun }) =>
    beginnings.flatMap((beginning) => {
      if (beginning.bothAlike === undefined) return [];
      const events = [first, second].reduce(
        (all, cell) => withCellEvents(all, cell, begun?.(since) ?? {}),
        start.events,
      );
      return alikeSteps(beginning, carried[first], carried[second]).map((step) =>
        extend(start, step, (state) => performBeginAlike(layout, state, step), events),
      );
    }),
  );
  return [...byThemselves, ...alike];
}

type Alike = Extract<Step, { kind: "begin-alike" }>;

/**
 * A film that both cells met may be on cells whose clean gains are known from earlier cruises, on one of them or on both.
 */
function alikeSteps(
  beginning: Beginning,
  first: Carried | undefined,
  second: Carried | undefined,
): readonly Alike[] {
  const prior = beginning.bothAlike ?? 0;
  const good = { ...beginning, ...goodBeginning };
  const [p, q] = [first?.probability ?? 0, second?.probability ?? 0];
  const kind = "begin-alike";
  const neither = { kind, beginning, second: good, cleanAlike: true } as const;
  const steps: Alike[] = [{ ...neither, prior: prior * (1 - p) * (1 - q) }];
  if (beginning.filmSd === undefined) return steps;
  const mixes = [
    [first, undefined, p * (1 - q)],
    [undefined, second, (1 - p) * q],
    [first, second, p * q],
  ] as const;
  for (const [one, other, share] of mixes) {
    if (share === 0) continue;
    steps.push({
      kind,
      beginning: one === undefined ? beginning : asCarried(beginning, one),
      second: other === undefined ? good : asCarried(good, other),
      cleanAlike: false,
      prior: prior * share,
    });
  }
  return steps;
}

/** Changes `state` in place. */
export function performBegin(
  layout: Layout,
  state: Gaussian,
  { cell, beginning }: Extract<Step, { kind: "begin" }>,
): number {
  return draw(layout, state, cell, beginning);
}

/** Changes `state` in place, for both cells of a package of two. */
export function performBeginAlike(
  layout: Layout,
  state: Gaussian,
  { beginning, second: ofSecond, cleanAlike, prior }: Alike,
): number {
  const [first, second] = layout.cells as readonly [CellName, CellName];
  const { filmSd } = beginning;
  draw(layout, state, second, ofSecond);
  draw(layout, state, first, beginning);
  const at = (cell: CellName, slot: CellSlot) => cellIndex(layout, cell, slot);
  if (cleanAlike)
    assign(state, at(second, "clean"), at(first, "clean"), 1, ownOfEach.clean_ppm ** 2);
  if (filmSd !== undefined) {
    const own = (ownOfEach.filmShare * filmSd) ** 2;
    assign(state, at(second, "filmDown"), at(first, "filmDown"), 1, own);
    assign(state, at(second, "filmUp"), at(second, "filmDown"), 1, 0);
  }
  return Math.log(prior);
}

/** Changes `state` in place. */
function draw(layout: Layout, state: Gaussian, cell: CellName, beginning: Beginning): number {
  const { prior, cleanSd, pressureSd, thermometerSd = 0, filmSd } = beginning;
  const { cleanMean = 0, pressureMean = 0, filmMean = 0 } = beginning;
  const at = (slot: CellSlot) => cellIndex(layout, cell, slot);
  for (const slot of ["filmDown", "filmUp", "filmRate", "event"] as const)
    redraw(state, at(slot), 0, 0);
  redraw(state, at("clean"), cleanMean, cleanSd ** 2);
  redraw(state, at("pressure"), pressureMean, pressureSd ** 2);
  redraw(state, at("thermometer"), 0, thermometerSd ** 2);
  redraw(state, at("offset"), 0, (beginning.offsetSd ?? offsetSd) ** 2);
  if (filmSd !== undefined) {
    const direction = new Float64Array(layout.size);
    for (const slot of ["filmDown", "filmUp", "event"] as const) direction[at(slot)] = 1;
    widen(state, direction, filmMean, filmSd ** 2);
    learnNotPositive(state, at("event"));
    redraw(state, at("event"), 0, 0);
  }
  return Math.log(prior);
}
