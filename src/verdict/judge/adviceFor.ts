// The cleaning decision for one cell, from what is held of it now.
import type { Advice } from "../../cleaning/decision/advice.js";
import {
  type BeliefComponent,
  type Circumstances,
  decide,
} from "../../cleaning/decision/decide.js";
import { causeOf } from "../../model/hypothesis.js";
import { cellIndex } from "../../model/state.js";
import type { CellContext } from "./cellVerdict.js";

export function adviceFor(
  context: CellContext,
  circumstances: Omit<Circumstances, "target" | "target_ppm">,
): Advice {
  const { target, target_ppm } = context;
  return decide(belief(context), { ...circumstances, target, target_ppm });
}

/** The hypotheses as a mixture over the clean gain, the film and its growth by the next station. */
function belief({
  layout,
  cell,
  tracked,
  hoursToNext,
  everObserved,
}: CellContext): BeliefComponent[] {
  const days = hoursToNext / 24;
  const [clean, film, rate] = (["clean", "filmUp", "filmRate"] as const).map((slot) =>
    cellIndex(layout, cell, slot),
  ) as [number, number, number];
  return tracked.now.map((hypothesis) => {
    const { mean, covariance } = hypothesis.state;
    const between = (i: number, j: number) => covariance[i * layout.size + j]!;
    return {
      weight: Math.exp(hypothesis.logWeight),
      cause: everObserved ? causeOf(layout, hypothesis, cell) : "undetermined",
      cleanMean_ppm: mean[clean]!,
      filmMean_ppm: mean[film]!,
      cleanVariance: between(clean, clean),
      filmVariance: between(film, film),
      covariance: between(clean, film),
      growthMean_ppm: mean[rate]! * days,
      growthVariance: between(rate, rate) * days * days + tracked.noise.clean ** 2 * days,
    };
  });
}
