// The cell through the cruise: a multi-process filter [HarrisonStevens1976] over casts. Hypotheses about
// what happened carry a Gaussian each; at every cast the causes propose what may be new, the evidence
// weighs the proposals, and the most probable are followed.

import type { CellName } from "../cast/cast.js";
import type { IntensityName, MaintenanceEvent } from "../cast/maintenance.js";
import type { ResponseSigns } from "../causes/responseSigns.js";
import { wakeDepth_dbar } from "../evidence/bottles/bottleNoise.js";
import type { DeepWaterStep } from "../evidence/deepWater/deepWaterNoise.js";
import type { Excursion } from "../evidence/path/excursion.js";
import { certainZero, type Gaussian, redraw } from "../model/gaussian.js";
import { gather, type Hypothesis } from "../model/hypothesis.js";
import { type Noise, usualNoise } from "../model/noise.js";
import type { Observation, Onset } from "../model/observation.js";
import type { RecoveryPrior } from "../model/recovery.js";
import { type Layout, layoutFor, sharedIndex } from "../model/state.js";
import { begin } from "./beginning.js";
import { maintain, passTime } from "./betweenCasts.js";
import { learnNoise } from "./learnNoise.js";
import { propose } from "./propose.js";

/** A cast as the tracker sees it. */
export interface TrackedInput {
  readonly cast: string;
  /** ISO 8601 UTC; absent where not known. */
  readonly start?: string;
  readonly observations: readonly Observation[];
  readonly onsets: Readonly<Partial<Record<CellName, Onset>>>;
  /** What was seen to come and go within the cast. */
  readonly excursions?: readonly Excursion[];
  /** How the sensors answered, by cell, where that was seen. */
  readonly response?: Readonly<Partial<Record<CellName, ResponseSigns>>>;
  /** How far the calm deep water may have changed since the last cast that saw it. */
  readonly deepWater?: DeepWaterStep;
  /** The laboratory run of its bottles. */
  readonly run?: string;
  /** What the record says was done after it and before the next. */
  readonly maintenanceAfter: readonly MaintenanceEvent[];
}

/** What is held after a cast: hypotheses with weights that sum to one. */
export interface TrackedCast {
  readonly cast: string;
  readonly hypotheses: readonly Hypothesis[];
  /** The same after what the record says was done since. */
  readonly now: readonly Hypothesis[];
  /** The noise that this cast was judged with. */
  readonly noise: Noise;
}

export type Recovery = Readonly<Record<IntensityName, RecoveryPrior>>;

/** Where times are not written, casts are taken to be this far apart, days (common practice, no source). */
const usualInterval_days = 0.5;
/** Two sound thermometers differ by this, mK: each is to hold 2 mK [McTaggartEtAl2010], and most hold half of it. */
const thermometersSd_mK = 1.5;
/** Noise is learnt again when this many casts, and this share more than the last time, have brought evidence. */
const learning = { casts: 4, more: 1.25 };

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
  const layout = layoutFor(cells);
  const start = startOf(layout);
  let noise = usualNoise;
  let seen = 0;
  let nextLearning = learning.casts;
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
    if (seen >= nextLearning) {
      const { path } = tracked[i]!.hypotheses[0]!;
      if (path !== undefined) noise = learnNoise(path, start, noise);
      nextLearning = seen * learning.more;
    }
  }
  return tracked;
}

/** The coefficients before anything is known of a cell. */
export function startOf(layout: Layout): Gaussian {
  const state = certainZero(layout.size);
  redraw(state, sharedIndex(layout, "wake"), wakeDepth_dbar.mean, wakeDepth_dbar.sd ** 2);
  redraw(state, sharedIndex(layout, "thermometers"), 0, thermometersSd_mK ** 2);
  return state;
}

/** Every way in which the cells may begin the cruise. */
export function beginAll(
  layout: Layout,
  start: Gaussian,
  inputs: readonly TrackedInput[],
  noise: Noise,
): readonly Hypothesis[] {
  const since = { cast: inputs[0]?.cast ?? "", when: "from the start" } as const;
  const beginning: readonly Hypothesis[] = [{ logWeight: 0, state: start, story: { cells: {} } }];
  return gather(
    layout.cells.reduce((all, cell) => begin(layout, all, cell, since, noise), beginning),
  );
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
    sameRun: input.run !== undefined && input.run === before?.run,
    readInAir: input.observations.some(({ line }) => line === "air-zero"),
    ...(input.deepWater === undefined ? {} : { deepWater: input.deepWater }),
  };
  const waiting = gather(held.map((hypothesis) => passTime(layout, hypothesis, interval, noise)));
  if (input.observations.length === 0) return waiting;
  const since = { castsSinceEvidence: silent + 1, runGoesOn: interval.sameRun };
  return gather(propose(layout, waiting, input, since, noise));
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
    (all, event) => gather(maintain(layout, all, event, cast, recovery, noise)),
    held,
  );
}

/** Days from one cast to the next; 0 before the first, the usual where times are not written. */
export function daysBetween(before: TrackedInput | undefined, next: TrackedInput): number {
  if (before === undefined) return 0;
  const from = Date.parse(before.start ?? "");
  const to = Date.parse(next.start ?? "");
  return to > from ? (to - from) / 86_400_000 : usualInterval_days;
}
