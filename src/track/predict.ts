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
interface Interval {
  readonly days: number;
  /** How shared errors pass, where their lines say more than usual. */
  readonly passages: Passages;
  /** Time in the water of the cast that comes, days. */
  readonly inWater_days: number;
}

/** Change of the additive offset by itself, uS/cm per square root of a day: electronics hardly move (judgement). */
const offsetNoise = 0.02;
/**
 * Change of a growing film's rate per square root of a day, as a share of the rate and by itself, ppm a day: growth slows, or
 * runs away, in proportion to what it is (judgement).
 */
const rateNoise = { share: 0.6, own: 8 };

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
  const growing = filmed.filter((cell) => cellStory(hypothesis.story, cell).film?.kind === "drift");
  const act: Act = (state, noise) => {
    predictCells(layout, state, filmed, growing, interval, noise);
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
  growing: readonly CellName[],
  { days, inWater_days }: Interval,
  noise: Noise,
): void {
  for (const cell of layout.cells) {
    const at = (slot: CellSlot) => cellIndex(layout, cell, slot);
    const film = filmed.includes(cell) ? noise.film ** 2 : 0;
    addVariance(state, at("clean"), noise.clean ** 2 * days);
    // From the end of the up leg to the start of the next down leg, then through the cast.
    assign(state, at("filmDown"), at("filmUp"), 1, film);
    add(state, at("filmDown"), at("filmRate"), Math.max(0, days - inWater_days));
    assign(state, at("filmUp"), at("filmDown"), 1, film);
    add(state, at("filmUp"), at("filmRate"), inWater_days);
    if (growing.includes(cell)) {
      const rate = state.mean[at("filmRate")]!;
      const perDay = (rateNoise.share * rate) ** 2 + rateNoise.own ** 2;
      addVariance(state, at("filmRate"), perDay * days);
    }
    redraw(state, at("event"), 0, 0);
    addVariance(state, at("offset"), offsetNoise ** 2 * days);
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
