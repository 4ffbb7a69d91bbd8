// The effect of a maintenance entry on the hypotheses: a film is removed, reduced or left, or a cell is exchanged.
import type { CellName } from "../cast/cast.js";
import { type IntensityName, intensityNames, type MaintenanceEvent } from "../cast/maintenance.js";
import type { Retained } from "../model/cause.js";
import type { CellPriors } from "../model/cellPrior.js";
import {
  cellEvents,
  type EventHistory,
  type FilmRemoval,
  withCellEvents,
} from "../model/eventHistory.js";
import { extend } from "../model/extend.js";
import { factorAfterFailures, type JudgedCleaning } from "../model/failedCleanings.js";
import { assign, type Gaussian } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import { cellIndex, type Layout } from "../model/layout.js";
import type { Recovery } from "../model/recovery.js";
import type { FilterStep } from "../model/updates.js";
import { initialiseCell } from "./initialise.js";

/** @param fitted results of earlier cruises for the cells that were fitted after this cast */
export function maintain(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  event: MaintenanceEvent,
  afterCast: string,
  recovery: Recovery,
  fitted: CellPriors = {},
): readonly Hypothesis[] {
  const cells = layout.cells.filter((cell) => event.cell === undefined || event.cell === cell);
  const { action } = event;
  if (action === "exchange" || action === "calibration") {
    const since = { cast: afterCast, when: "after" } as const;
    const priorOf = (cell: CellName) => (action === "exchange" ? fitted[cell] : undefined);
    return cells.reduce(
      (all, cell) => initialiseCell(layout, all, cell, since, priorOf(cell)),
      hypotheses,
    );
  }
  const intensity = intensityNames.find((name) => name === action);
  if (intensity === undefined) return hypotheses;
  return cells.reduce(
    (all, cell, i) =>
      all.flatMap((hypothesis) =>
        branchesOfCleaning(
          layout,
          hypothesis,
          {
            cell,
            intensity,
            afterCast,
            cleanedWith: i > 0 && intensity !== "rinse" ? cells[0] : undefined,
          },
          recovery,
        ),
      ),
    hypotheses,
  );
}

interface CleaningOfCell {
  readonly cell: CellName;
  readonly intensity: IntensityName;
  readonly afterCast: string;
  /** The cell cleaned together with this one, whose outcome is already drawn; a rinse is recorded only if it worked. */
  readonly cleanedWith: CellName | undefined;
}

/** Probability that two cells cleaned together have the same outcome, because water and time were the same (judgement). */
const sameOutcome = 0.8;

/**
 * Branches of a cleaning: it worked, it worked in part, or it failed. A rinse follows every cast. The first rinse after a
 * film seldom removes it, and a film that stayed through one rinse stays through the next.
 */
function branchesOfCleaning(
  layout: Layout,
  hypothesis: Hypothesis,
  { cell, intensity, afterCast, cleanedWith }: CleaningOfCell,
  recovery: Recovery,
): readonly Hypothesis[] {
  const ofCell = cellEvents(hypothesis.events, cell);
  const { film } = ofCell;
  if (film === undefined) return [hypothesis];
  const { retainedIfWorks, retainedIfFails } = recovery[intensity];
  const extended = (retained: Retained, probability: number, events: EventHistory) => {
    const step = { kind: "clean", cell, retained, probability } as const;
    return extend(hypothesis, step, (state) => performClean(layout, state, step), events);
  };
  const outcomeOfOther =
    cleanedWith && cellEvents(hypothesis.events, cleanedWith).film?.removals.at(-1)?.how;
  const branch = (alone: number, retained: Retained, how: FilmRemoval["how"]) => {
    const removal = { cast: afterCast, when: "after", how, by: intensity } as const;
    const events = withCellEvents(hypothesis.events, cell, {
      ...ofCell,
      film: { ...film, removals: [...film.removals, removal] },
    });
    const probability =
      outcomeOfOther === undefined
        ? alone
        : (1 - sameOutcome) * alone + (outcomeOfOther === how ? sameOutcome : 0);
    return extended(retained, probability, events);
  };
  const failedBefore = film.removals.flatMap((one) =>
    one.how === "cleaned in vain" && one.by !== undefined ? [failedCleaning(one.by)] : [],
  );
  const prior = (name: IntensityName) => recovery[name].probabilityWorks;
  const works = prior(intensity) * factorAfterFailures(intensity, failedBefore, prior);
  const fails = 1 - works;
  if (intensity === "rinse") {
    const isFirst = film.kind === "step" && film.since.cast === afterCast;
    if (!isFirst || film.removals.length > 0) return [hypothesis];
    return [
      extended(retainedIfFails, fails, hypothesis.events),
      branch(works, retainedIfWorks, "cleaned off"),
    ];
  }
  const again = failedBefore.length > 0 ? failures.again : failures.first;
  return [
    branch(works, retainedIfWorks, "cleaned off"),
    branch(fails * (1 - again.inVain), failures.inPart, "cleaned in part"),
    branch(fails * again.inVain, failures.inVain, "cleaned in vain"),
  ].filter(({ logWeight }) => logWeight > Number.NEGATIVE_INFINITY);
}

/** Changes the state in place. */
export function performClean(
  layout: Layout,
  state: Gaussian,
  { cell, retained, probability }: Extract<FilterStep, { kind: "clean" }>,
): number {
  retain(layout, state, cell, "filmUp", retained);
  return Math.log(probability);
}

/**
 * A decision treats failures as one branch (`retainedIfFails`). To judge a past cleaning, "changed nothing" is a branch of its
 * own beside "worked in part", because a false film would also show no change (judgement).
 */
const failures = {
  /** Share of the failures that change nothing; larger for a film that stayed through a cleaning before. */
  first: { inVain: 0.4 },
  again: { inVain: 0.8 },
  /** The shares left if the cleaning works in part. */
  inPart: { mean: 0.55, sd: 0.2 },
  inVain: { mean: 0.985, sd: 0.02 },
};

/** The share left if the cleaning changed nothing. */
function failedCleaning(intensity: IntensityName): JudgedCleaning {
  return { intensity, success: 0, filmProbability: 1, sameFilm: 1 };
}

/**
 * Changes the state in place: an uncertain share of the film stays. Mean and variance of the product of two independent
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
