// Predict: from the end of one cast to the start of the next. Films carry over and grow, errors of one cast are redrawn.
import type { CellName } from "../cast/cast.js";
import { causeNamed } from "../causes/index.js";
import { extend } from "../model/extend.js";
import { add, addVariance, assign, type Gaussian, redraw } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import { type CellSlot, cellIndex, type Layout, sharedIndex } from "../model/layout.js";
import type { Noise } from "../model/noise.js";
import type { Act } from "../model/path.js";
import type { Passages } from "../model/sharedError.js";
import { cellStory } from "../model/story.js";

/** What lies between one cast and the next. */
export interface Interval {
  readonly days: number;
  /** How shared errors pass, where their lines say more than usual. */
  readonly passages: Passages;
  /** Whether the cell is read in air on the cast that comes. */
  readonly readInAir: boolean;
}

/** Residue or water in a cell may make it read this much in air, uS/cm (judgement). */
const residue_uS_cm = 3;

export function predict(
  layout: Layout,
  hypothesis: Hypothesis,
  interval: Interval,
  noise: Noise,
): Hypothesis {
  const { cells, doubt } = hypothesis.story;
  const filmed = layout.cells.filter(
    (cell) => cellStory(hypothesis.story, cell).film !== undefined,
  );
  const act: Act = (state, noise) => {
    predictCells(layout, state, filmed, interval, noise);
    passSharedErrors(layout, state, interval.passages, noise);
    return 0;
  };
  const lasting = doubt && causeNamed(doubt.cause).goesOnWith;
  const lasts = lasting !== undefined && interval.passages[lasting]?.kind === "kept";
  return extend(hypothesis, noise, act, lasts ? { cells, doubt: doubt! } : { cells });
}

/** In place. */
function predictCells(
  layout: Layout,
  state: Gaussian,
  filmed: readonly CellName[],
  { days, readInAir }: Interval,
  noise: Noise,
): void {
  for (const cell of layout.cells) {
    const at = (slot: CellSlot) => cellIndex(layout, cell, slot);
    const film = filmed.includes(cell) ? noise.film ** 2 : 0;
    addVariance(state, at("clean"), noise.clean ** 2 * days);
    assign(state, at("filmDown"), at("filmUp"), 1, film);
    add(state, at("filmDown"), at("filmRate"), days);
    assign(state, at("filmUp"), at("filmDown"), 1, film);
    redraw(state, at("event"), 0, 0);
    addVariance(state, at("offset"), readInAir ? residue_uS_cm ** 2 : 0);
  }
}

/** In place. */
export function passSharedErrors(
  layout: Layout,
  state: Gaussian,
  passages: Passages,
  noise: Noise,
): void {
  for (const { name, passage } of layout.sharedErrors) {
    const how = passages[name] ?? passage;
    const index = sharedIndex(layout, name);
    if (how.kind === "walked") addVariance(state, index, how.variance);
    if (how.kind === "redrawn")
      redraw(state, index, 0, how.variance ?? (noise.errors[name] ?? 0) ** 2);
  }
}
