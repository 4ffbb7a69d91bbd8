// Follow the cells through a cruise: a multi-process filter [HarrisonStevens1976] over casts. Each hypothesis about what
// happened carries a Gaussian. At every cast the causes propose what may be new, the evidence updates the proposals, and
// the most probable are kept.
import type { CellName } from "../cast/cast.js";
import type { CarriedByCell } from "../model/carried.js";
import type { Gaussian } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import type { Layout } from "../model/layout.js";
import { type Noise, usualNoise } from "../model/noise.js";
import { newStretch } from "../model/path.js";
import { beginCruise } from "./beginning.js";
import { estimateNoise } from "./estimateNoise.js";
import { informative } from "./informative.js";
import { layoutOf, startOf } from "./layout.js";
import { maintain } from "./maintain.js";
import { mergeAndPrune } from "./merge.js";
import { predict } from "./predict.js";
import { propose } from "./propose.js";
import { daysBetween, type Recovery, type TrackedCast, type TrackedInput } from "./tracked.js";

/** Noise is estimated when this many casts have brought evidence, and again with this share more, or so many more (judgement: cost). */
const estimating = { casts: 6, more: 1.25, mostMore: 16 };
/**
 * The noise is learnt from the newest 64 to 80 casts with evidence: that knows a standard deviation to a tenth, follows a
 * laboratory that changes, and costs no more as a cruise goes on (judgement).
 */
const stretches = { casts: 16, kept: 4 };

/** What the filter holds when the evidence of a cast is in: plain data. */
export interface Followed {
  /** Their weights sum to one. */
  readonly hypotheses: readonly Hypothesis[];
  /** The noise that the cast was judged with. */
  readonly noise: Noise;
  /** Casts without evidence up to this one. */
  readonly silent: number;
  /** Casts that brought evidence. */
  readonly seen: number;
  /** How many of them there must be before the noise is estimated again. */
  readonly nextEstimate: number;
}

/**
 * Follow the cells through a cruise, each cast given only what came before it and its own evidence; the noise is
 * learnt from the casts before.
 * @param cells    cells of the package
 * @param inputs   casts in order of time
 * @param recovery what each intensity of cleaning leaves of a film
 */
export function track(
  cells: readonly CellName[],
  inputs: readonly TrackedInput[],
  recovery: Recovery,
): readonly TrackedCast[] {
  const layout = layoutOf(cells);
  let left = begun(layout, inputs[0]?.cast ?? "");
  return inputs.map((input, i) => {
    const followed = follow(layout, left, input, inputs[i - 1]);
    left = leave(layout, followed, input, recovery);
    const { hypotheses, noise } = followed;
    return { cast: input.cast, hypotheses, now: left.hypotheses, noise };
  });
}

/**
 * Before the first cast.
 * @param carried what earlier cruises taught of the cells
 */
export function begun(layout: Layout, cast: string, carried: CarriedByCell = {}): Followed {
  const start = startOf(layout);
  const noise = usualNoise(layout.sharedErrors);
  const hypotheses = beginAll(layout, start, cast, carried);
  return { hypotheses, noise, silent: 0, seen: 0, nextEstimate: estimating.casts };
}

/**
 * One cast more.
 * @param left what was held as the cast before was left, or before the first
 */
export function follow(
  layout: Layout,
  left: Followed,
  given: TrackedInput,
  before: Pick<TrackedInput, "start"> | undefined,
): Followed {
  const input = informative(given);
  const { noise, silent, seen } = left;
  const hypotheses = throughCast(layout, left.hypotheses, input, before, silent, noise);
  const brings = input.observations.length > 0;
  return { ...left, hypotheses, silent: brings ? 0 : silent + 1, seen: brings ? seen + 1 : seen };
}

/** From a cast to the next: what the record says was done since, and the noise that it is to be judged with. */
export function leave(
  layout: Layout,
  followed: Followed,
  input: TrackedInput,
  recovery: Recovery,
): Followed {
  const { hypotheses, seen, nextEstimate, noise } = followed;
  const now = afterCast(layout, hypotheses, input, recovery);
  const newest = informative(input).observations.length > 0 && seen % stretches.casts === 0;
  const held = newest ? now.map(onNewStretch) : now;
  const path = seen >= nextEstimate ? hypotheses[0]!.path : undefined;
  if (path === undefined) return { ...followed, hypotheses: held };
  return {
    ...followed,
    hypotheses: held,
    noise: estimateNoise(layout, path, noise),
    nextEstimate: Math.min(seen * estimating.more, seen + estimating.mostMore),
  };
}

function onNewStretch(hypothesis: Hypothesis): Hypothesis {
  const { path, state } = hypothesis;
  return path === undefined
    ? hypothesis
    : { ...hypothesis, path: newStretch(path, state, stretches.kept) };
}

/** Every way in which the cells may begin the cruise. */
export function beginAll(
  layout: Layout,
  start: Gaussian,
  cast: string,
  carried: CarriedByCell = {},
): readonly Hypothesis[] {
  const since = { cast, when: "from the start" } as const;
  const beginning = { logWeight: 0, state: start, story: { cells: {} }, path: { start } };
  return mergeAndPrune(beginCruise(layout, beginning, since, carried));
}

/** @param silent casts without evidence just before this one */
export function throughCast(
  layout: Layout,
  held: readonly Hypothesis[],
  input: TrackedInput,
  before: Pick<TrackedInput, "start"> | undefined,
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
): readonly Hypothesis[] {
  return maintenanceAfter.reduce(
    (all, event) => mergeAndPrune(maintain(layout, all, event, cast, recovery)),
    held,
  );
}
