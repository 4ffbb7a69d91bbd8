// The onset of changes of a cell according to the hypotheses, with its probability.
import { rollup, sum } from "d3-array";
import { causeNamed } from "../../causes/index.js";
import type { ChangeOfGain } from "../../model/changeOfGain.js";
import type { CellView } from "../../track/cellView.js";

/** Changes that persist at this cast: films in the cell, shifts of the clean gain. */
export function changeOf(view: CellView): ChangeOfGain {
  const all = view.eventsByHypothesis().map(({ events, cause, weight }) => ({
    change: asChange(causeNamed(cause).since?.(events)),
    weight,
  }));
  const groups = rollup(
    all,
    (same) => ({ change: same[0]!.change, probability: sum(same, ({ weight }) => weight) }),
    ({ change }) => JSON.stringify(change),
  );
  const best = [...groups.values()].reduce((a, b) => (b.probability > a.probability ? b : a));
  return { ...best.change, probability: Math.min(1, best.probability) };
}

type LastingChange = ReturnType<NonNullable<ReturnType<typeof causeNamed>["since"]>>;

function asChange(lasting: LastingChange): Omit<ChangeOfGain, "probability"> {
  if (lasting === undefined) return { kind: "none" };
  // Growth has no sharp onset: hypotheses with several onsets are merged, and no cast is named.
  if (lasting.kind === "drift") return { kind: "drift" };
  const { cast, when, place } = lasting.since;
  return {
    kind: lasting.kind,
    sinceCast: cast,
    when,
    ...(place === undefined ? {} : { leg: place.leg, pressure_dbar: place.pressure_dbar }),
  };
}
