// What an entry of the maintenance record does to the hypotheses: a film is cleaned off, or not; a cell is exchanged.
import type { CellName } from "../cast/cast.js";
import { type IntensityName, intensityNames, type MaintenanceEvent } from "../cast/maintenance.js";
import type { Retained } from "../model/cause.js";
import { extend } from "../model/extend.js";
import { factorOnFilm, type JudgedCleaning } from "../model/failuresOnFilm.js";
import { assign, type Gaussian } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import { cellIndex, type Layout } from "../model/layout.js";
import type { Step } from "../model/path.js";
import type { Recovery } from "../model/recovery.js";
import { cellStory, type Going, retold, type Story } from "../model/story.js";
import { begin } from "./beginning.js";

export function maintain(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  event: MaintenanceEvent,
  afterCast: string,
  recovery: Recovery,
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
          recovery,
        ),
      ),
    hypotheses,
  );
}

interface Cleaning {
  readonly cell: CellName;
  readonly intensity: IntensityName;
  readonly afterCast: string;
  /** The cell that was cleaned with it and has its outcome already; a rinse is recorded only where it worked. */
  readonly beside: CellName | undefined;
}

/** Two cells cleaned together fare alike, for they had the same water and the same time, as often as this (judgement). */
const alike = 0.8;

/**
 * A film cleaned: it worked, or in part, or not at all. A rinse follows every cast: the first after a film came seldom takes it
 * off; a film that stayed through it stays through the others.
 */
function cleaned(
  layout: Layout,
  hypothesis: Hypothesis,
  { cell, intensity, afterCast, beside }: Cleaning,
  recovery: Recovery,
): readonly Hypothesis[] {
  const told = cellStory(hypothesis.story, cell);
  const { film } = told;
  if (film === undefined) return [hypothesis];
  const { retainedIfWorks, retainedIfFails } = recovery[intensity];
  const keeping = (retained: Retained, probability: number, story: Story) => {
    const step = { kind: "clean", cell, retained, probability } as const;
    return extend(hypothesis, step, (state) => performClean(layout, state, step), story);
  };
  const other = beside && cellStory(hypothesis.story, beside).film?.gone.at(-1)?.how;
  const branch = (alone: number, retained: Retained, how: Going["how"]) => {
    const going = { cast: afterCast, when: "after", how, by: intensity } as const;
    const story = retold(hypothesis.story, cell, {
      ...told,
      film: { ...film, gone: [...film.gone, going] },
    });
    const probability =
      other === undefined ? alone : (1 - alike) * alone + (other === how ? alike : 0);
    return keeping(retained, probability, story);
  };
  const inVain = film.gone.flatMap((one) =>
    one.how === "cleaned in vain" && one.by !== undefined ? [failed(one.by)] : [],
  );
  const prior = (name: IntensityName) => recovery[name].probabilityWorks;
  const works = prior(intensity) * factorOnFilm(intensity, inVain, prior);
  const fails = 1 - works;
  if (intensity === "rinse") {
    const isFirst = film.kind === "step" && film.since.cast === afterCast;
    if (!isFirst || film.gone.length > 0) return [hypothesis];
    return [
      keeping(retainedIfFails, fails, hypothesis.story),
      branch(works, retainedIfWorks, "cleaned off"),
    ];
  }
  const again = inVain.length > 0 ? failures.again : failures.first;
  return [
    branch(works, retainedIfWorks, "cleaned off"),
    branch(fails * (1 - again.inVain), failures.inPart, "cleaned in part"),
    branch(fails * again.inVain, failures.inVain, "cleaned in vain"),
  ].filter(({ logWeight }) => logWeight > Number.NEGATIVE_INFINITY);
}

/** In place. */
export function performClean(
  layout: Layout,
  state: Gaussian,
  { cell, retained, probability }: Extract<Step, { kind: "clean" }>,
): number {
  retain(layout, state, cell, "filmUp", retained);
  return Math.log(probability);
}

/**
 * A decision treats failures as one branch (`retainedIfFails`). To tell what happened, cleanings that moved nothing
 * at all are kept apart from those that half worked: nothing at all is also what a film that is none would show
 * (judgement).
 */
const failures = {
  /** The share of failures that are in vain; more of a film that stayed through a cleaning before. */
  first: { inVain: 0.4 },
  again: { inVain: 0.8 },
  /** What is left. */
  inPart: { mean: 0.55, sd: 0.2 },
  inVain: { mean: 0.985, sd: 0.02 },
};

/** A cleaning that moved nothing of a film that is still there. */
function failed(intensity: IntensityName): JudgedCleaning {
  return { intensity, success: 0, filmProbability: 1, sameFilm: 1 };
}

/**
 * In place: a film of which an uncertain share stays. Mean and variance of the product of two independent uncertain
 * numbers are exact.
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
