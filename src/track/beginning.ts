// How a cell may begin: sound, with an old calibration, already fouled, answering to pressure. The same when a cell is
// exchanged in mid-cruise, or its calibration is replaced.
import type { CellName } from "../cast/cast.js";
import { causes } from "../causes/index.js";
import { goodBeginning, goodClean_ppm } from "../causes/limits.js";
import type { Beginning } from "../model/cause.js";
import { extend } from "../model/extend.js";
import { assign, type Gaussian, learnNotPositive, redraw, widen } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import { type CellSlot, cellIndex, type Layout } from "../model/layout.js";
import type { Step } from "../model/path.js";
import { retold, type Since } from "../model/story.js";

/** A sound cell reads zero in air to within this, uS/cm (judgement). */
const offsetSd = 0.1;

/** Every hypothesis, once for every way in which the cell may begin. */
export function begin(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
  since: Since,
): readonly Hypothesis[] {
  return causes.flatMap(({ beginnings, begun }) =>
    beginnings.flatMap((beginning) =>
      hypotheses.map((hypothesis) =>
        extend(
          hypothesis,
          { kind: "begin", cell, beginning } as const,
          (state, step) => performBegin(layout, state, step),
          retold(hypothesis.story, cell, begun?.(since) ?? {}),
        ),
      ),
    ),
  );
}

/** What two cells that begin alike differ by: a sound cell's own, ppm, and a share of the film (judgement). */
const ownOfEach = { clean_ppm: goodClean_ppm, filmShare: 0.4 };

/** The cells of a package as a cruise begins: each by itself, or both off alike. */
export function beginCruise(
  layout: Layout,
  start: Hypothesis,
  since: Since,
): readonly Hypothesis[] {
  const [first, second] = layout.cells;
  const byThemselves = layout.cells.reduce<readonly Hypothesis[]>(
    (all, cell) => begin(layout, all, cell, since),
    [start],
  );
  if (first === undefined || second === undefined) return byThemselves;
  const alike = causes.flatMap(({ beginnings, begun }) =>
    beginnings.flatMap((beginning) => {
      if (beginning.bothAlike === undefined) return [];
      const story = [first, second].reduce(
        (told, cell) => retold(told, cell, begun?.(since) ?? {}),
        start.story,
      );
      const step = { kind: "begin-alike", beginning } as const;
      return [extend(start, step, (state) => performBeginAlike(layout, state, step), story)];
    }),
  );
  return [...byThemselves, ...alike];
}

/** In place. */
export function performBegin(
  layout: Layout,
  state: Gaussian,
  { cell, beginning }: Extract<Step, { kind: "begin" }>,
): number {
  return draw(layout, state, cell, beginning);
}

/** In place: both cells of a package of two. */
export function performBeginAlike(
  layout: Layout,
  state: Gaussian,
  { beginning }: Extract<Step, { kind: "begin-alike" }>,
): number {
  const [first, second] = layout.cells as readonly [CellName, CellName];
  const { bothAlike = 1, filmSd } = beginning;
  draw(layout, state, second, { ...beginning, ...goodBeginning });
  draw(layout, state, first, beginning);
  const at = (cell: CellName, slot: CellSlot) => cellIndex(layout, cell, slot);
  assign(state, at(second, "clean"), at(first, "clean"), 1, ownOfEach.clean_ppm ** 2);
  if (filmSd !== undefined) {
    const own = (ownOfEach.filmShare * filmSd) ** 2;
    assign(state, at(second, "filmDown"), at(first, "filmDown"), 1, own);
    assign(state, at(second, "filmUp"), at(second, "filmDown"), 1, 0);
  }
  return Math.log(bothAlike);
}

/** In place. */
function draw(
  layout: Layout,
  state: Gaussian,
  cell: CellName,
  { prior, cleanSd, pressureSd, thermometerSd = 0, filmSd, offsetSd: ownOffsetSd }: Beginning,
): number {
  const at = (slot: CellSlot) => cellIndex(layout, cell, slot);
  for (const slot of ["filmDown", "filmUp", "filmRate", "event"] as const)
    redraw(state, at(slot), 0, 0);
  redraw(state, at("clean"), 0, cleanSd ** 2);
  redraw(state, at("pressure"), 0, pressureSd ** 2);
  redraw(state, at("thermometer"), 0, thermometerSd ** 2);
  redraw(state, at("offset"), 0, (ownOffsetSd ?? offsetSd) ** 2);
  if (filmSd !== undefined) {
    const direction = new Float64Array(layout.size);
    for (const slot of ["filmDown", "filmUp", "event"] as const) direction[at(slot)] = 1;
    widen(state, direction, 0, filmSd ** 2);
    learnNotPositive(state, at("event"));
    redraw(state, at("event"), 0, 0);
  }
  return Math.log(prior);
}
