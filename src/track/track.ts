// Follow the cells through a cruise: a multi-process filter [HarrisonStevens1976] over casts. Each hypothesis is an event
// history with a Gaussian state. At every cast the causes propose new events, the evidence updates the proposals, and the
// most probable are kept.
import type { CellName } from "../cast/cast.js";
import type { CellPriors } from "../model/cellPrior.js";
import type { Gaussian } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import type { Layout } from "../model/layout.js";
import { type Noise, usualNoise } from "../model/noise.js";
import type { Recovery } from "../model/recovery.js";
import { startSegment } from "../model/updates.js";
import { estimateNoise } from "./estimateNoise.js";
import { informative } from "./informative.js";
import { initialiseCruise } from "./initialise.js";
import { layoutOf, startOf } from "./layout.js";
import { maintain } from "./maintain.js";
import { mergeAndPrune } from "./merge.js";
import { predict } from "./predict.js";
import { propose } from "./propose.js";
import { daysBetween, type TrackedCast, type TrackedInput } from "./tracked.js";

/**
 * Estimate the noise once this many casts have brought evidence. Repeat it when their number has grown by this share, or by
 * this many (judgement: cost).
 */
const noiseSchedule = { casts: 6, more: 1.25, mostMore: 16 };
/**
 * The noise is estimated from the newest 64 to 80 casts with evidence. That is enough to know a standard deviation to a
 * tenth and to follow a laboratory that changes. The cost does not rise as a cruise goes on (judgement).
 */
const segments = { casts: 16, kept: 4 };

/** The state of the filter after the evidence of a cast: plain data. */
export interface FilterState {
  /** Their weights sum to one. */
  readonly hypotheses: readonly Hypothesis[];
  /** The noise that this cast was updated with. */
  readonly noise: Noise;
  /** Number of successive casts without evidence, up to this one. */
  readonly castsWithoutEvidence: number;
  /** Number of casts with evidence. */
  readonly castsWithEvidence: number;
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
  let left = initialFilter(layout, inputs[0]?.cast ?? "");
  return inputs.map((input, i) => {
    const followed = updateWithCast(layout, left, input, inputs[i - 1]);
    left = finishCast(layout, followed, input, recovery);
    const { hypotheses, noise } = followed;
    return { cast: input.cast, hypotheses, afterMaintenance: left.hypotheses, noise };
  });
}

/**
 * The state before the first cast.
 * @param priors results of earlier cruises for the cells
 */
export function initialFilter(layout: Layout, cast: string, priors: CellPriors = {}): FilterState {
  const start = startOf(layout);
  const noise = usualNoise(layout.sharedErrors);
  const hypotheses = initialHypotheses(layout, start, cast, priors);
  return {
    hypotheses,
    noise,
    castsWithoutEvidence: 0,
    castsWithEvidence: 0,
    nextEstimate: noiseSchedule.casts,
  };
}

/**
 * Add one cast.
 * @param left the state after the cast before, or before the first
 */
export function updateWithCast(
  layout: Layout,
  left: FilterState,
  given: TrackedInput,
  before: Pick<TrackedInput, "start"> | undefined,
): FilterState {
  const input = informative(given);
  const { noise, castsWithoutEvidence, castsWithEvidence } = left;
  const hypotheses = predictAndUpdate(
    layout,
    left.hypotheses,
    input,
    before,
    castsWithoutEvidence,
    noise,
  );
  const brings = input.observations.length > 0;
  return {
    ...left,
    hypotheses,
    castsWithoutEvidence: brings ? 0 : castsWithoutEvidence + 1,
    castsWithEvidence: brings ? castsWithEvidence + 1 : castsWithEvidence,
  };
}

/** From one cast to the next: apply the maintenance since, and estimate the noise for the next cast. */
export function finishCast(
  layout: Layout,
  followed: FilterState,
  input: TrackedInput,
  recovery: Recovery,
): FilterState {
  const { hypotheses, castsWithEvidence, nextEstimate, noise } = followed;
  const now = applyMaintenance(layout, hypotheses, input, recovery);
  const newest =
    informative(input).observations.length > 0 && castsWithEvidence % segments.casts === 0;
  const held = newest ? now.map(inNewSegment) : now;
  const updates = castsWithEvidence >= nextEstimate ? hypotheses[0]!.updates : undefined;
  if (updates === undefined) return { ...followed, hypotheses: held };
  return {
    ...followed,
    hypotheses: held,
    noise: estimateNoise(layout, updates, noise),
    nextEstimate: Math.min(
      castsWithEvidence * noiseSchedule.more,
      castsWithEvidence + noiseSchedule.mostMore,
    ),
  };
}

function inNewSegment(hypothesis: Hypothesis): Hypothesis {
  const { updates, state } = hypothesis;
  return updates === undefined
    ? hypothesis
    : { ...hypothesis, updates: startSegment(updates, state, segments.kept) };
}

/** Every combination of states in which the cells may begin the cruise. */
export function initialHypotheses(
  layout: Layout,
  start: Gaussian,
  cast: string,
  priors: CellPriors = {},
): readonly Hypothesis[] {
  const since = { cast, when: "from the start" } as const;
  const hypothesis = { logWeight: 0, state: start, events: { cells: {} }, updates: { start } };
  return mergeAndPrune(initialiseCruise(layout, hypothesis, since, priors));
}

/** @param silent number of casts without evidence just before this one */
export function predictAndUpdate(
  layout: Layout,
  held: readonly Hypothesis[],
  input: TrackedInput,
  before: Pick<TrackedInput, "start"> | undefined,
  silent: number,
  noise: Noise,
): readonly Hypothesis[] {
  const interval = {
    days: daysBetween(before, input),
    evolutions: input.evolutions,
    inWater_days: input.path?.days ?? 0,
  };
  const waiting = mergeAndPrune(
    held.flatMap((hypothesis) => predict(layout, hypothesis, interval, noise)),
  );
  if (input.observations.length === 0) return waiting;
  const unchangedErrors = new Set(
    Object.entries(input.evolutions).flatMap(([name, { kind }]) =>
      kind === "constant" ? [name] : [],
    ),
  );
  const { days, inWater_days } = interval;
  const onDeck_days = before === undefined ? 0 : Math.max(0, days - inWater_days);
  const since = { castsSinceEvidence: silent + 1, unchangedErrors, onDeck_days };
  return mergeAndPrune(propose(layout, waiting, input, since, noise));
}

/** Apply the maintenance record after a cast. */
export function applyMaintenance(
  layout: Layout,
  held: readonly Hypothesis[],
  { maintenanceAfter, cast, fitted }: TrackedInput,
  recovery: Recovery,
): readonly Hypothesis[] {
  return maintenanceAfter.reduce(
    (all, event) => mergeAndPrune(maintain(layout, all, event, cast, recovery, fitted)),
    held,
  );
}
