// What an entry of the maintenance record does to the hypotheses: a film is cleaned off, or not; a cell is exchanged.
import type { CellName } from "../cast/cast.js";
import { type IntensityName, intensityNames, type MaintenanceEvent } from "../cast/maintenance.js";
import type { Retained } from "../model/cause.js";
import { extend } from "../model/extend.js";
import { assign, type Gaussian } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import { cellIndex, type Layout } from "../model/layout.js";
import type { Step } from "../model/path.js";
import type { RecoveryPrior } from "../model/recovery.js";
import { cellStory, type Going, retold, type Story } from "../model/story.js";
import { begin } from "./beginning.js";

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

/** A film cleaned: it worked, or in part, or not at all. A rinse seldom works, and then wholly or not. */
function cleaned(
  layout: Layout,
  hypothesis: Hypothesis,
  { cell, intensity, afterCast, beside }: Cleaning,
  { probabilityWorks, retainedIfWorks, retainedIfFails }: RecoveryPrior,
): readonly Hypothesis[] {
  const told = cellStory(hypothesis.story, cell);
  const { film } = told;
  if (film === undefined) return [hypothesis];
  const keeping = (retained: Retained, probability: number, story: Story) => {
    const step = { kind: "clean", cell, retained, probability } as const;
    return extend(hypothesis, step, (state) => performClean(layout, state, step), story);
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
    return keeping(retained, probability, story);
  };
  const fails = 1 - probabilityWorks;
  if (intensity === "rinse") {
    // A rinse follows every cast. A film that stayed through one stays, and makes no new hypothesis.
    const last = film.gone.at(-1)?.how;
    const stays = (probability: number) => keeping(retainedIfFails, probability, hypothesis.story);
    // A film that grows through one rinse grows through the next.
    if (last === "cleaned off" || last === "shed" || film.kind === "drift") return [stays(1)];
    return [stays(fails), branch(probabilityWorks, retainedIfWorks, "cleaned off")];
  }
  return [
    branch(probabilityWorks, retainedIfWorks, "cleaned off"),
    branch(fails * failures.inPart.share, failures.inPart.retained, "cleaned in part"),
    branch(fails * failures.inVain.share, failures.inVain.retained, "cleaned in vain"),
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
  inPart: { share: 0.6, retained: { mean: 0.55, sd: 0.2 } },
  inVain: { share: 0.4, retained: { mean: 0.97, sd: 0.04 } },
};

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
