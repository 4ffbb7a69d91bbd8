// What happens between two casts: time passes, and what the maintenance record says was done.

import type { CellName } from "../cast/cast.js";
import type { IntensityName, MaintenanceEvent } from "../cast/maintenance.js";
import { intensityNames } from "../cast/maintenance.js";
import type { Retained } from "../causes/cause.js";
import type { RecoveryPrior } from "../cleaning/recovery.js";
import { begin } from "./beginning.js";
import { assign, copyOf, type Gaussian, redraw } from "./gaussian.js";
import type { Hypothesis } from "./hypothesis.js";
import { cellIndex, type Layout, sharedIndex } from "./state.js";
import { cellStory, type Going, retold } from "./story.js";

/**
 * How a sound cell's clean gain wanders, ppm per square root of a day, and from cast to cast, ppm: well-kept
 * cells move by 0.0001 in salinity a month [JAMSTECRecords]; what is left in a cell after a rinse is some
 * ppm (judgement).
 */
export const wander = { perRootDay: 0.5, film: 3 };
/** The standardisation error of one laboratory run, ppm: 0.0003 in salinity [KawanoEtAl2006]. */
export const runSd_ppm = 8;
/**
 * Two healthy pairs of sensors wander against each other from cast to cast by about this, ppm: 0.3 mK
 * between the thermometers is worth 8 ppm (those of a published 117-station cruise stay within
 * 0.3 mK [CruiseReports2022]).
 */
export const pairWander_ppm = 10;

/** The start of a cast: films carry over from the up leg of the last and grow; one-cast errors are drawn anew. */
export function passTime(
  layout: Layout,
  hypothesis: Hypothesis,
  days: number,
  sameRun: boolean,
): Hypothesis {
  const state = copyOf(hypothesis.state);
  for (const cell of layout.cells) {
    const at = (slot: Parameters<typeof cellIndex>[2]) => cellIndex(layout, cell, slot);
    const film = cellStory(hypothesis.story, cell).film !== undefined;
    const { covariance } = state;
    covariance[at("clean") * layout.size + at("clean")]! += wander.perRootDay ** 2 * days;
    assign(state, at("filmDown"), at("filmUp"), 1, film ? wander.film ** 2 : 0);
    addGrowth(state, at("filmDown"), at("filmRate"), days);
    assign(state, at("filmUp"), at("filmDown"), 1, film ? wander.film ** 2 : 0);
    redraw(state, at("event"), 0, 0);
  }
  if (!sameRun) redraw(state, sharedIndex(layout, "run"), 0, runSd_ppm ** 2);
  redraw(state, sharedIndex(layout, "pairWander"), 0, pairWander_ppm ** 2);
  redraw(state, sharedIndex(layout, "water"), 0, 0);
  const { cells, doubt } = hypothesis.story;
  // A bad standardisation goes on for as long as its run; every other doubt is of one cast.
  const goesOn = sameRun && doubt === "reference-error";
  return { ...hypothesis, state, story: goesOn ? { cells, doubt } : { cells } };
}

/** In place: film becomes film + rate x days. */
function addGrowth({ mean, covariance }: Gaussian, film: number, rate: number, days: number): void {
  const size = mean.length;
  mean[film]! += days * mean[rate]!;
  for (let j = 0; j < size; j++)
    covariance[film * size + j]! += days * covariance[rate * size + j]!;
  for (let j = 0; j < size; j++)
    covariance[j * size + film]! += days * covariance[j * size + rate]!;
}

/** What an entry of the record does to the hypotheses. */
export function maintain(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  event: MaintenanceEvent,
  afterCast: string,
  recovery: Readonly<Record<IntensityName, RecoveryPrior>>,
): readonly Hypothesis[] {
  const cells = layout.cells.filter((cell) => event.cell === undefined || event.cell === cell);
  const { action } = event;
  if (action === "exchange" || action === "calibration") {
    const since = { cast: afterCast, when: "after" } as const;
    return cells.reduce((all, cell) => begin(layout, all, cell, since), hypotheses);
  }
  const intensity = intensityNames.find((name) => name === action);
  if (intensity === undefined) return hypotheses;
  return cells.reduce(
    (all, cell) =>
      all.flatMap((hypothesis) =>
        cleaned(layout, hypothesis, cell, intensity, afterCast, recovery[intensity]),
      ),
    hypotheses,
  );
}

/** A film cleaned: it worked, or in part, or not at all. A rinse seldom works, and then wholly or not. */
function cleaned(
  layout: Layout,
  hypothesis: Hypothesis,
  cell: CellName,
  intensity: IntensityName,
  afterCast: string,
  { probabilityWorks, retainedIfWorks, retainedIfFails }: RecoveryPrior,
): readonly Hypothesis[] {
  const told = cellStory(hypothesis.story, cell);
  const { film } = told;
  if (film === undefined) return [hypothesis];
  const branch = (probability: number, retained: Retained, how: Going["how"]) => ({
    logWeight: hypothesis.logWeight + Math.log(probability),
    state: retain(layout, hypothesis.state, cell, "filmUp", retained),
    story: retold(hypothesis.story, cell, {
      ...told,
      film: { ...film, gone: [...film.gone, { cast: afterCast, when: "after" as const, how }] },
    }),
  });
  const fails = 1 - probabilityWorks;
  if (intensity === "rinse") {
    // After every cast a rinse: what stayed through one is of the kind that stays, and makes no new story.
    const state = retain(layout, hypothesis.state, cell, "filmUp", retainedIfFails);
    const last = film.gone.at(-1)?.how;
    if (last === "cleaned off" || last === "shed") return [{ ...hypothesis, state }];
    const stays = { ...hypothesis, state, logWeight: hypothesis.logWeight + Math.log(fails) };
    return [stays, branch(probabilityWorks, retainedIfWorks, "cleaned off")];
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
 * A film of which an uncertain share stays; mean and variance of the product of two independent
 * uncertain numbers are exact.
 */
export function retain(
  layout: Layout,
  before: Gaussian,
  cell: CellName,
  slot: "filmDown" | "filmUp",
  { mean, sd }: Retained,
): Gaussian {
  const state = copyOf(before);
  const index = cellIndex(layout, cell, slot);
  const size = layout.size;
  const film = before.mean[index]!;
  const spread = sd * sd * (film * film + before.covariance[index * size + index]!);
  assign(state, index, index, mean, spread);
  return state;
}
