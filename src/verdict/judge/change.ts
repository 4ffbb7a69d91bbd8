// Since when: what the hypotheses hold to have changed in a cell, and how probable that is.
import type { CellName } from "../../cast/cast.js";
import { causeOf, type Hypothesis } from "../../model/hypothesis.js";
import type { Layout } from "../../model/state.js";
import { cellStory, type Since } from "../../model/story.js";
import type { ChangeOfGain } from "../verdict.js";

/** Changes that stand at this cast: films that are there, shifts of the clean gain. */
export function changeOf(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
): ChangeOfGain {
  const groups = new Map<
    string,
    { change: Omit<ChangeOfGain, "probability">; probability: number }
  >();
  for (const hypothesis of hypotheses) {
    const change = standing(layout, hypothesis, cell);
    const key = JSON.stringify(change);
    const group = groups.get(key) ?? { change, probability: 0 };
    group.probability += Math.exp(hypothesis.logWeight);
    groups.set(key, group);
  }
  const best = [...groups.values()].reduce((a, b) => (b.probability > a.probability ? b : a));
  return { ...best.change, probability: Math.min(1, best.probability) };
}

function standing(
  layout: Layout,
  hypothesis: Hypothesis,
  cell: CellName,
): Omit<ChangeOfGain, "probability"> {
  const cause = causeOf(layout, hypothesis, cell);
  const { film, shifted } = cellStory(hypothesis.story, cell);
  if (cause === "fouling" && film !== undefined) return told(film.kind, film.since);
  if (cause === "calibration-shift" && shifted !== undefined && shifted.when === "before") {
    return told("step", shifted);
  }
  return { kind: "none" };
}

function told(
  kind: "step" | "drift",
  { cast, when, place }: Since,
): Omit<ChangeOfGain, "probability"> {
  return {
    kind,
    sinceCast: cast,
    when,
    ...(place === undefined ? {} : { leg: place.leg, pressure_dbar: place.pressure_dbar }),
  };
}
