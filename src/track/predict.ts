// Predict: from the end of one cast to the start of the next. Films persist and grow; errors of a single cast are redrawn.
import type { CellName } from "../cast/cast.js";
import { cellEvents } from "../model/eventHistory.js";
import { extend } from "../model/extend.js";
import { shareOnDeck } from "../model/filmGrowth.js";
import { add, addVariance, assign, type Gaussian, redraw, widen } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import { type CellSlot, cellIndex, type Layout, sharedIndex } from "../model/layout.js";
import type { Noise } from "../model/noise.js";
import type { ErrorEvolutions } from "../model/sharedError.js";
import type { FilterStep, Interval } from "../model/updates.js";
import { growLessOnDeck, ownShareWashedOff, washFilms } from "./filmsBetweenCasts.js";
import { passages } from "./passages.js";

type PredictStep = Extract<FilterStep, { kind: "predict" }>;

/** Random walk of the additive offset, uS/cm per square root of a day: electronics hardly drift (judgement). */
const offsetNoise = 0.02;
/**
 * Random walk of the growth rate of a film, per square root of a day. The step is proportional to the rate, because growth slows
 * down or accelerates (judgement). Both cells are in the same water, so most of the step is a common share of the rate
 * (judgement).
 * - `common` a share of the rate, common to both cells
 * - `independent` a share of the rate, independent for each cell
 * - `own` ppm a day
 */
const rateNoise = { common: 0.54, independent: 0.27, own: 8 };

/** Random walk of the drift of a clean gain, ppm a day per square root of a day: a drift is steady (judgement). */
const driftNoise = 4;

/** Nothing rinses a film within a cast, so its noise there is this share of that between casts (judgement). */
const withinCast = 0.25;

/** @returns two hypotheses if the error of a bad laboratory run may have stayed, otherwise one */
export function predict(
  layout: Layout,
  hypothesis: Hypothesis,
  interval: Interval,
  noise: Noise,
): readonly Hypothesis[] {
  const { cells, doubts = [] } = hypothesis.events;
  const film = (cell: CellName) => cellEvents(hypothesis.events, cell).film;
  const filmed = layout.cells.filter((cell) => film(cell) !== undefined);
  const growing = filmed.filter((cell) => film(cell)?.kind === "drift");
  const less = growing.filter((cell) => film(cell)?.onDeck === "less");
  const washed = filmed.filter((cell) => film(cell)?.removals.at(-1)?.how === "shed in part");
  const drifting = layout.cells.filter(
    (cell) => cellEvents(hypothesis.events, cell).drift !== undefined,
  );
  const onsets = filmed.map((cell) => film(cell)!.since);
  const [first] = onsets;
  // What has stayed in the cells since before the cruise is not washed off any more (judgement).
  const alike =
    filmed.length > 1 &&
    first!.when !== "from the start" &&
    onsets.every(({ cast, when }) => cast === first!.cast && when === first!.when);
  return passages(interval, doubts).map(({ logOdds, evolutions, lasting }) => {
    const step = {
      kind: "predict",
      logOdds,
      filmed,
      growing,
      drifting,
      ...(less.length > 0 ? { lessOnDeck: less } : {}),
      ...(washed.length > 0 ? { washed } : {}),
      ...(alike ? { filmedAlike: true as const } : {}),
      interval: { ...interval, evolutions },
    } as const;
    const events = lasting.length > 0 ? { cells, doubts: lasting } : { cells };
    return extend(hypothesis, step, (state) => performPredict(layout, state, step, noise), events);
  });
}

/** Changes the state in place. */
export function performPredict(
  layout: Layout,
  state: Gaussian,
  step: PredictStep,
  noise: Noise,
): number {
  const { logOdds, interval } = step;
  // Half of the change of the rates comes before the growth: its effect on the film is then that of a rate that changes all the
  // time, to half of its variance. Without scans the time in the water is unknown, and the change comes after it (judgement).
  const before_days = interval.inWater_days > 0 ? interval.days / 2 : 0;
  predictRates(layout, state, step, before_days);
  predictCells(layout, state, step, noise);
  predictRates(layout, state, step, interval.days - before_days);
  predictSharedErrors(layout, state, interval.evolutions, noise);
  return logOdds;
}

/** Changes the state in place. */
function predictCells(layout: Layout, state: Gaussian, step: PredictStep, noise: Noise): void {
  const { filmed, lessOnDeck: less = [], washed = [], interval } = step;
  const { days, inWater_days } = interval;
  const onDeck_days = Math.max(0, days - inWater_days);
  washFilms(layout, state, step);
  growLessOnDeck(layout, state, less, onDeck_days);
  for (const cell of layout.cells) {
    const at = (slot: CellSlot) => cellIndex(layout, cell, slot);
    const own = washed.includes(cell) ? ownShareWashedOff * state.mean[at("filmUp")]! : 0;
    const film = filmed.includes(cell) ? Math.hypot(noise.film, own) : 0;
    add(state, at("clean"), at("cleanRate"), days);
    addVariance(state, at("clean"), noise.clean ** 2 * days);
    // From the end of the up leg to the start of the next down leg, then through the cast.
    assign(state, at("filmDown"), at("filmUp"), 1, film ** 2);
    const grown = shareOnDeck(less.includes(cell) ? "less" : undefined);
    add(state, at("filmDown"), at("filmRate"), grown * onDeck_days);
    assign(state, at("filmUp"), at("filmDown"), 1, (withinCast * film) ** 2);
    add(state, at("filmUp"), at("filmRate"), inWater_days);
    redraw(state, at("event"), 0, 0);
    addVariance(state, at("offset"), offsetNoise ** 2 * days);
  }
}

/** Changes the state in place. */
function predictRates(
  layout: Layout,
  state: Gaussian,
  { growing, drifting }: PredictStep,
  days: number,
): void {
  const rates = new Float64Array(layout.size);
  for (const cell of growing) {
    const at = cellIndex(layout, cell, "filmRate");
    rates[at] = state.mean[at]!;
    addVariance(state, at, ((rateNoise.independent * rates[at]!) ** 2 + rateNoise.own ** 2) * days);
  }
  widen(state, rates, 0, rateNoise.common ** 2 * days);
  for (const cell of drifting) {
    addVariance(state, cellIndex(layout, cell, "cleanRate"), driftNoise ** 2 * days);
  }
}

/** Changes the state in place. */
export function predictSharedErrors(
  layout: Layout,
  state: Gaussian,
  evolutions: ErrorEvolutions,
  noise: Noise,
): void {
  for (const { name, evolution } of layout.sharedErrors) {
    const how = evolutions[name] ?? evolution;
    const index = sharedIndex(layout, name);
    if (how.kind === "random-walk") addVariance(state, index, how.variance);
    const own = (noise.errors[name] ?? 0) ** 2;
    if (how.kind === "independent") redraw(state, index, 0, how.variance ?? own);
    if (how.kind === "partly-new") assign(state, index, index, how.kept, (1 - how.kept ** 2) * own);
  }
}
