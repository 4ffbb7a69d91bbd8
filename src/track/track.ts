// Follow the cells through a cruise: a multi-process filter [HarrisonStevens1976] over casts. Each hypothesis about what
// happened carries a Gaussian. At every cast the causes propose what may be new, the evidence updates the proposals, and
// the most probable are kept.
import type { CellName } from "../cast/cast.js";
import type { Gaussian } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import type { Layout } from "../model/layout.js";
import { type Noise, usualNoise } from "../model/noise.js";
import { beginCruise } from "./beginning.js";
import { estimateNoise } from "./estimateNoise.js";
import { layoutOf, startOf } from "./layout.js";
import { maintain } from "./maintain.js";
import { mergeAndPrune } from "./merge.js";
import { predict } from "./predict.js";
import { propose } from "./propose.js";
import { telling } from "./telling.js";
import { daysBetween, type Recovery, type TrackedCast, type TrackedInput } from "./tracked.js";

/** Noise is estimated when this many casts have brought evidence, and again with this share more (judgement: cost). */
const estimating = { casts: 4, more: 1.25 };

/**
 * Follow the cells through a cruise, each cast given only what came before it and its own evidence; the noise is
 * learnt from the casts before.
 * @param cells    cells of the package
 * @param given    casts in order of time
 * @param recovery what each intensity of cleaning leaves of a film
 */
export function track(
  cells: readonly CellName[],
  given: readonly TrackedInput[],
  recovery: Recovery,
): readonly TrackedCast[] {
  const inputs = given.map(telling);
  const layout = layoutOf(cells);
  const start = startOf(layout);
  let noise = usualNoise(layout.sharedErrors);
  let seen = 0;
  let nextEstimate = estimating.casts;
  const tracked: TrackedCast[] = [];
  let held = beginAll(layout, start, inputs, noise);
  let silent = 0;
  for (const [i, input] of inputs.entries()) {
    held = throughCast(layout, held, input, inputs[i - 1], silent, noise);
    const now = afterCast(layout, held, input, recovery, noise);
    tracked.push({ cast: input.cast, hypotheses: held, now, noise });
    held = now;
    silent = input.observations.length > 0 ? 0 : silent + 1;
    if (input.observations.length > 0) seen++;
    if (seen >= nextEstimate) {
      const { path } = tracked[i]!.hypotheses[0]!;
      if (path !== undefined) noise = estimateNoise(layout, path, start, noise);
      nextEstimate = seen * estimating.more;
    }
  }
  return tracked;
}

/** Every way in which the cells may begin the cruise. */
export function beginAll(
  layout: Layout,
  start: Gaussian,
  inputs: readonly TrackedInput[],
  noise: Noise,
): readonly Hypothesis[] {
  const since = { cast: inputs[0]?.cast ?? "", when: "from the start" } as const;
  const beginning: Hypothesis = { logWeight: 0, state: start, story: { cells: {} } };
  return mergeAndPrune(beginCruise(layout, beginning, since, noise));
}

/** @param silent casts without evidence just before this one */
export function throughCast(
  layout: Layout,
  held: readonly Hypothesis[],
  input: TrackedInput,
  before: TrackedInput | undefined,
  silent: number,
  noise: Noise,
): readonly Hypothesis[] {
  const interval = {
    days: daysBetween(before, input),
    passages: input.passages,
    inWater_days: input.path?.days ?? 0,
  };
  const waiting = mergeAndPrune(
    held.map((hypothesis) => predict(layout, hypothesis, interval, noise)),
  );
  if (input.observations.length === 0) return waiting;
  const kept = new Set(
    Object.entries(input.passages).flatMap(([name, { kind }]) => (kind === "kept" ? [name] : [])),
  );
  const since = { castsSinceEvidence: silent + 1, kept };
  return mergeAndPrune(propose(layout, waiting, input, since, noise));
}

/** What the record says was done after a cast. */
export function afterCast(
  layout: Layout,
  held: readonly Hypothesis[],
  { maintenanceAfter, cast }: TrackedInput,
  recovery: Recovery,
  noise: Noise,
): readonly Hypothesis[] {
  return maintenanceAfter.reduce(
    (all, event) => mergeAndPrune(maintain(layout, all, event, cast, recovery, noise)),
    held,
  );
}
