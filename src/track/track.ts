// Follow the cells through a cruise: a multi-process filter [HarrisonStevens1976] over casts. Each hypothesis is an event
// history with a Gaussian state. At every cast the causes propose new events, the evidence updates the proposals, and the
// most probable are kept.
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

/**
 * Estimate the noise once this many casts have brought evidence. Repeat after this share more, or this many more
 * (judgement: cost).
 */
const estimating = { casts: 6, more: 1.25, mostMore: 16 };
/**
 * Learn the noise from the newest 64 to 80 casts with evidence. That is enough to know a standard deviation to a tenth and
 * to follow a laboratory that changes. The cost does not rise as a cruise goes on (judgement).
 */
const stretches = { casts: 16, kept: 4 };

/** The state of the filter after the evidence of a cast: plain data. */
export interface Followed {
  /** Their weights sum to one. */
  readonly hypotheses: readonly Hypothesis[];
  /** The noise that this cast was updated with. */
  readonly noise: Noise;
  /** Number of successive casts without evidence, up to this one. */
  readonly silent: number;
  /** Number of casts with evidence. */
  readonly seen: number;
  /** The number of casts with evidence at which the noise is estimated again. */
  readonly nextEstimate: number;
}

/**
 * Follow the cells through a cruise. Each cast uses only earlier casts and its own evidence; the noise comes from the casts
 * before.
 * @param cells    cells of the package
 * @param inputs   casts in order of time
 * @param recovery the share of a film that each intensity of cleaning leaves
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
 * The state before the first cast.
 * @param carried results of earlier cruises for the cells
 */
export function begun(layout: Layout, cast: string, carried: CarriedByCell = {}): Followed {
  const start = startOf(layout);
  const noise = usualNoise(layout.sharedErrors);
  const hypotheses = beginAll(layout, start, cast, carried);
  return { hypotheses, noise, silent: 0, seen: 0, nextEstimate: estimating.casts };
}

/**
 * Add one cast.
 * @param left the state after the cast before, or before the first
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

/** From one cast to the next: apply the maintenance since, and estimate the noise for the next cast. */
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

/** Every combination of states in which the cells may begin the cruise. */
export function beginAll(
  layout: Layout,
  start: Gaussian,
  cast: string,
  carried: CarriedByCell = {},
): readonly Hypothesis[] {
  const since = { cast, when: "from the start" } as const;
  const beginning = { logWeight: 0, state: start, events: { cells: {} }, path: { start } };
  return mergeAndPrune(beginCruise(layout, beginning, since, carried));
}

/** @param silent number of casts without evidence just before this one */
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

/** Apply the maintenance record after a cast. */
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
