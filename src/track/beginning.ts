// How a cell may begin: sound, with an old calibration, already fouled, answering to pressure. The same
// when a cell is exchanged in mid-cruise, or its calibration is replaced.

import type { CellName } from "../cast/cast.js";
import { bankOfCauses } from "../causes/index.js";
import type { Beginning } from "../model/cause.js";
import type { CauseName } from "../model/causeNames.js";
import { type Gaussian, learnNotPositive, redraw, widen } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import type { Noise } from "../model/noise.js";
import { goOn } from "../model/path.js";
import { type CellSlot, cellIndex, type Layout } from "../model/state.js";
import { type CellStory, retold, type Since } from "../model/story.js";

/** A sound cell reads zero in air to within this, uS/cm (judgement). */
const additiveSd = 0.1;

/** Every hypothesis, once for every way in which the cell may begin. */
export function begin(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
  since: Since,
  noise: Noise,
): readonly Hypothesis[] {
  return bankOfCauses.flatMap((cause) =>
    cause.beginnings.flatMap((beginning) =>
      hypotheses.map((hypothesis) =>
        goOn(
          hypothesis,
          noise,
          (state) => draw(layout, state, cell, beginning),
          retold(hypothesis.story, cell, tell(cause.name, since)),
        ),
      ),
    ),
  );
}

/** In place. */
function draw(
  layout: Layout,
  state: Gaussian,
  cell: CellName,
  { prior, cleanSd, pressureSd, thermometerSd = 0, filmSd }: Beginning,
): number {
  const at = (slot: CellSlot) => cellIndex(layout, cell, slot);
  for (const slot of ["filmDown", "filmUp", "filmRate", "event"] as const)
    redraw(state, at(slot), 0, 0);
  redraw(state, at("clean"), 0, cleanSd ** 2);
  redraw(state, at("pressure"), 0, pressureSd ** 2);
  redraw(state, at("thermometer"), 0, thermometerSd ** 2);
  redraw(state, at("additive"), 0, additiveSd ** 2);
  if (filmSd !== undefined) {
    const direction = new Float64Array(layout.size);
    for (const slot of ["filmDown", "filmUp", "event"] as const) direction[at(slot)] = 1;
    widen(state, direction, 0, filmSd ** 2);
    learnNotPositive(state, at("event"));
    redraw(state, at("event"), 0, 0);
  }
  return Math.log(prior);
}

function tell(cause: CauseName, since: Since): CellStory {
  if (cause === "fouling") return { film: { kind: "step", since, gone: [] } };
  if (cause === "calibration-shift") return { shifted: since };
  if (cause === "pressure-response") return { pressureResponse: since };
  if (cause === "temperature-error") return { thermometerOff: since };
  return {};
}
