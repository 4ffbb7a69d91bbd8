// Predict: from the end of one cast to the start of the next. Films persist and grow; errors of a single cast are redrawn.
import type { CellName } from "../cast/cast.js";
import { causeNamed } from "../causes/index.js";
import { cellEvents, type Doubt } from "../model/eventHistory.js";
import { extend } from "../model/extend.js";
import { lessOnDeck, shareOnDeck } from "../model/filmGrowth.js";
import { add, addVariance, assign, type Gaussian, redraw, widen } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import { type CellSlot, cellIndex, type Layout, sharedIndex } from "../model/layout.js";
import type { Noise } from "../model/noise.js";
import type { ErrorEvolution, ErrorEvolutions } from "../model/sharedError.js";
import type { FilterStep, Interval } from "../model/updates.js";

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
  const filmed = layout.cells.filter(
    (cell) => cellEvents(hypothesis.events, cell).film !== undefined,
  );
  const growing = filmed.filter(
    (cell) => cellEvents(hypothesis.events, cell).film?.kind === "drift",
  );
  const less = growing.filter(
    (cell) => cellEvents(hypothesis.events, cell).film?.onDeck === "less",
  );
  const drifting = layout.cells.filter(
    (cell) => cellEvents(hypothesis.events, cell).drift !== undefined,
  );
  return passages(interval, doubts).map(({ logOdds, evolutions, lasting }) => {
    const step = {
      kind: "predict",
      logOdds,
      filmed,
      growing,
      drifting,
      ...(less.length > 0 ? { lessOnDeck: less } : {}),
      interval: { ...interval, evolutions },
    } as const;
    const events = lasting.length > 0 ? { cells, doubts: lasting } : { cells };
    return extend(hypothesis, step, (state) => performPredict(layout, state, step, noise), events);
  });
}

/** How the shared errors pass to the next cast, the doubts that last, and the log probability of this. */
interface Passage {
  readonly logOdds: number;
  readonly evolutions: ErrorEvolutions;
  readonly lasting: readonly Doubt[];
}

/**
 * A run has the samples of one or two casts [CruiseReports2021]. So a bad one that has lasted once seldom lasts again: probability
 * for each cast (judgement).
 */
const lastsAgain = 0.1;

/**
 * The error of a bad laboratory run does not pass to the next cast in part. If it is not known whether the next cast is of the
 * same run, it passes as a whole, or not at all.
 */
function passages({ evolutions }: Interval, doubts: readonly Doubt[]): readonly Passage[] {
  const lasting = doubts.filter(({ cause }) => evolutionOf(cause, evolutions)?.kind === "constant");
  const open = doubts.find(({ cause }) => evolutionOf(cause, evolutions)?.kind === "partly-new");
  const how = open && evolutionOf(open.cause, evolutions);
  if (open === undefined || how?.kind !== "partly-new")
    return [{ logOdds: 0, evolutions, lasting }];
  const name = causeNamed(open.cause).doubtLastsWith!;
  const kept = open.lasted ? lastsAgain : how.kept;
  return [
    {
      logOdds: Math.log(kept),
      evolutions: { ...evolutions, [name]: { kind: "constant" } },
      lasting: [...lasting, { ...open, lasted: true }],
    },
    {
      logOdds: Math.log1p(-kept),
      evolutions: { ...evolutions, [name]: { kind: "independent" } },
      lasting,
    },
  ];
}

/** The change of the shared error with which a doubt lasts. */
function evolutionOf(cause: string, evolutions: ErrorEvolutions): ErrorEvolution | undefined {
  const name = causeNamed(cause).doubtLastsWith;
  return name === undefined ? undefined : evolutions[name];
}

/** Changes the state in place. */
export function performPredict(
  layout: Layout,
  state: Gaussian,
  step: Extract<FilterStep, { kind: "predict" }>,
  noise: Noise,
): number {
  const { logOdds, filmed, growing, drifting, lessOnDeck: less = [], interval } = step;
  predictCells(layout, state, filmed, less, interval, noise);
  predictRates(layout, state, growing, interval.days);
  for (const cell of drifting) {
    addVariance(state, cellIndex(layout, cell, "cleanRate"), driftNoise ** 2 * interval.days);
  }
  predictSharedErrors(layout, state, interval.evolutions, noise);
  return logOdds;
}

/** Changes the state in place. */
function predictCells(
  layout: Layout,
  state: Gaussian,
  filmed: readonly CellName[],
  less: readonly CellName[],
  { days, inWater_days }: Interval,
  noise: Noise,
): void {
  const onDeck_days = Math.max(0, days - inWater_days);
  growLessOnDeck(layout, state, less, onDeck_days);
  for (const cell of layout.cells) {
    const at = (slot: CellSlot) => cellIndex(layout, cell, slot);
    const film = filmed.includes(cell) ? noise.film : 0;
    add(state, at("clean"), at("cleanRate"), days);
    addVariance(state, at("clean"), noise.clean ** 2 * days);
    // From the end of the up leg to the start of the next down leg, then through the cast.
    assign(state, at("filmDown"), at("filmUp"), 1, film ** 2);
    const share = shareOnDeck(less.includes(cell) ? "less" : undefined);
    add(state, at("filmDown"), at("filmRate"), share * onDeck_days);
    assign(state, at("filmUp"), at("filmDown"), 1, (withinCast * film) ** 2);
    add(state, at("filmUp"), at("filmRate"), inWater_days);
    redraw(state, at("event"), 0, 0);
    addVariance(state, at("offset"), offsetNoise ** 2 * days);
  }
}

/** The uncertain growth on deck is the same share of the rate in both cells: both had the same care. Changes the state in place. */
function growLessOnDeck(
  layout: Layout,
  state: Gaussian,
  less: readonly CellName[],
  onDeck_days: number,
): void {
  if (less.length === 0) return;
  const growth = new Float64Array(layout.size);
  for (const cell of less) {
    // The film grows on from its value at the end of the up leg.
    growth[cellIndex(layout, cell, "filmUp")] =
      state.mean[cellIndex(layout, cell, "filmRate")]! * onDeck_days;
  }
  widen(state, growth, 0, lessOnDeck.sd ** 2);
}

/** Changes the state in place. */
function predictRates(layout: Layout, state: Gaussian, growing: readonly CellName[], days: number) {
  const rates = new Float64Array(layout.size);
  for (const cell of growing) {
    const at = cellIndex(layout, cell, "filmRate");
    rates[at] = state.mean[at]!;
    addVariance(state, at, ((rateNoise.independent * rates[at]!) ** 2 + rateNoise.own ** 2) * days);
  }
  widen(state, rates, 0, rateNoise.common ** 2 * days);
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
