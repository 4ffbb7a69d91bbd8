// What happens between two casts: time passes, and what the maintenance record says was done.

import type { CellName } from "../cast/cast.js";
import type { IntensityName, MaintenanceEvent } from "../cast/maintenance.js";
import { intensityNames } from "../cast/maintenance.js";
import type { DeepWaterStep } from "../evidence/deepWater/deepWaterNoise.js";
import type { Retained } from "../model/cause.js";
import { add, addVariance, assign, type Gaussian, redraw } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import type { Noise } from "../model/noise.js";
import { type Act, goOn } from "../model/path.js";
import type { RecoveryPrior } from "../model/recovery.js";
import { type CellSlot, cellIndex, type Layout, sharedIndex } from "../model/state.js";
import { cellStory, type Going, retold } from "../model/story.js";
import { begin } from "./beginning.js";

/** What lies between one cast and the next. */
export interface Interval {
  readonly days: number;
  /** Both casts' bottles were measured in one laboratory run. */
  readonly sameRun: boolean;
  /** The cell was read in air on the cast that comes: only then is a stray offset looked for. */
  readonly readInAir: boolean;
  readonly deepWater?: DeepWaterStep;
}

/**
 * Along a section deep water goes on changing the same way, so that over several stations it changes by more than
 * independent steps would: their variance is taken so many times as great (judgement).
 */
const goesOn = 3;
/** Residue or water in a cell may make it read this much in air, uS/cm (judgement). */
const residue_uS_cm = 3;

/** The start of a cast: films carry over from the up leg of the last and grow; one-cast errors are drawn anew. */
export function passTime(
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
    pass(layout, state, filmed, interval, noise);
    return 0;
  };
  // A bad standardisation goes on for as long as its run; every other doubt is of one cast.
  const goesOn = interval.sameRun && doubt?.cause === "reference-error";
  return goOn(hypothesis, noise, act, goesOn ? { cells, doubt } : { cells });
}

/** In place. */
function pass(
  layout: Layout,
  state: Gaussian,
  filmed: readonly CellName[],
  { days, sameRun, readInAir, deepWater }: Interval,
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
    addVariance(state, at("additive"), readInAir ? residue_uS_cm ** 2 : 0);
  }
  drawErrorsOfCast(
    layout,
    state,
    { sameRun, ...(deepWater === undefined ? {} : { deepWater }) },
    noise,
  );
}

/** In place: what is of one cast, or of one laboratory run, is drawn anew; deep water walks on. */
export function drawErrorsOfCast(
  layout: Layout,
  state: Gaussian,
  { sameRun, deepWater }: Pick<Interval, "sameRun" | "deepWater">,
  noise: Noise,
): void {
  if (!sameRun) redraw(state, sharedIndex(layout, "run"), 0, noise.run ** 2);
  redraw(state, sharedIndex(layout, "pairWander"), 0, noise.pairWander ** 2);
  redraw(state, sharedIndex(layout, "legsWater"), 0, 0);
  redraw(state, sharedIndex(layout, "thermometersNow"), 0, noise.thermometers ** 2);
  if (deepWater === undefined) return;
  const deep = sharedIndex(layout, "deepWater");
  if (deepWater.restart) redraw(state, deep, 0, deepWater.walk_ppm2);
  else addVariance(state, deep, goesOn * deepWater.walk_ppm2);
}

/** What an entry of the record does to the hypotheses. */
export function maintain(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  event: MaintenanceEvent,
  afterCast: string,
  recovery: Readonly<Record<IntensityName, RecoveryPrior>>,
  noise: Noise,
): readonly Hypothesis[] {
  const cells = layout.cells.filter((cell) => event.cell === undefined || event.cell === cell);
  const { action } = event;
  if (action === "exchange" || action === "calibration") {
    const since = { cast: afterCast, when: "after" } as const;
    return cells.reduce((all, cell) => begin(layout, all, cell, since, noise), hypotheses);
  }
  const intensity = intensityNames.find((name) => name === action);
  if (intensity === undefined) return hypotheses;
  return cells.reduce(
    (all, cell, i) =>
      all.flatMap((hypothesis) =>
        cleaned(
          layout,
          hypothesis,
          {
            cell,
            intensity,
            afterCast,
            beside: i > 0 && intensity !== "rinse" ? cells[0] : undefined,
          },
          recovery[intensity],
          noise,
        ),
      ),
    hypotheses,
  );
}

interface Cleaning {
  readonly cell: CellName;
  readonly intensity: IntensityName;
  readonly afterCast: string;
  /** The cell that was cleaned with it and whose luck is told already; a rinse is told only where it worked. */
  readonly beside: CellName | undefined;
}

/** Two cells cleaned together fare alike, for they had the same water and the same time, as often as this (judgement). */
const alike = 0.8;

/** A film cleaned: it worked, or in part, or not at all. A rinse seldom works, and then wholly or not. */
function cleaned(
  layout: Layout,
  hypothesis: Hypothesis,
  { cell, intensity, afterCast, beside }: Cleaning,
  { probabilityWorks, retainedIfWorks, retainedIfFails }: RecoveryPrior,
  noise: Noise,
): readonly Hypothesis[] {
  const told = cellStory(hypothesis.story, cell);
  const { film } = told;
  if (film === undefined) return [hypothesis];
  const keeping =
    (share: Retained, probability: number): Act =>
    (state) => {
      retain(layout, state, cell, "filmUp", share);
      return Math.log(probability);
    };
  const other = beside && cellStory(hypothesis.story, beside).film?.gone.at(-1)?.how;
  const branch = (alone: number, retained: Retained, how: Going["how"]) => {
    const going = { cast: afterCast, when: "after", how } as const;
    const story = retold(hypothesis.story, cell, {
      ...told,
      film: { ...film, gone: [...film.gone, going] },
    });
    const probability =
      other === undefined ? alone : (1 - alike) * alone + (other === how ? alike : 0);
    return goOn(hypothesis, noise, keeping(retained, probability), story);
  };
  const fails = 1 - probabilityWorks;
  if (intensity === "rinse") {
    // After every cast a rinse: what stayed through one is of the kind that stays, and makes no new story.
    const last = film.gone.at(-1)?.how;
    const stays = (probability: number) =>
      goOn(hypothesis, noise, keeping(retainedIfFails, probability), hypothesis.story);
    if (last === "cleaned off" || last === "shed") return [stays(1)];
    return [stays(fails), branch(probabilityWorks, retainedIfWorks, "cleaned off")];
  }
  return [
    branch(probabilityWorks, retainedIfWorks, "cleaned off"),
    branch(fails * failures.inPart.share, failures.inPart.retained, "cleaned in part"),
    branch(fails * failures.inVain.share, failures.inVain.retained, "cleaned in vain"),
  ].filter(({ logWeight }) => logWeight > Number.NEGATIVE_INFINITY);
}

/**
 * A decision reckons with failures as one branch (`retainedIfFails`); to tell what happened, those that moved
 * nothing at all, which is what a film that is none would show, are kept apart from those that half worked
 * (judgement).
 */
const failures = {
  inPart: { share: 0.6, retained: { mean: 0.55, sd: 0.2 } },
  inVain: { share: 0.4, retained: { mean: 0.97, sd: 0.04 } },
};

/**
 * In place: a film of which an uncertain share stays; mean and variance of the product of two independent
 * uncertain numbers are exact.
 */
export function retain(
  layout: Layout,
  state: Gaussian,
  cell: CellName,
  slot: "filmDown" | "filmUp",
  { mean, sd }: Retained,
): void {
  const index = cellIndex(layout, cell, slot);
  const film = state.mean[index]!;
  const spread = sd * sd * (film * film + state.covariance[index * layout.size + index]!);
  assign(state, index, index, mean, spread);
}
