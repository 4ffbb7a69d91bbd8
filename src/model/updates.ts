// The updates that led to a hypothesis, so that its likelihood can be recomputed for other noise parameters. They are plain
// data, so that a cruise can be stored and continued.
import type { CellName } from "../cast/cast.js";
import type { InitialState, Proposal, Retained } from "./cause.js";
import type { Gaussian } from "./gaussian.js";
import type { Rows } from "./rows.js";
import type { ErrorEvolutions } from "./sharedError.js";

/** The interval between one cast and the next. */
export interface Interval {
  readonly days: number;
  /** Changes of shared errors over this interval, where a line states them; all others change as they usually do. */
  readonly evolutions: ErrorEvolutions;
  /** Time in the water of the next cast, days. */
  readonly inWater_days: number;
}

/** A change of the coefficients; the file that creates a step also applies it. */
export type FilterStep =
  | { readonly kind: "begin"; readonly cell: CellName; readonly initialState: InitialState }
  | {
      readonly kind: "begin-alike";
      /** Initial states of the first cell, and of the second for its independent part. */
      readonly initialState: InitialState;
      readonly second: InitialState;
      /** Whether their clean gains are alike too. */
      readonly cleanAlike: boolean;
      readonly prior: number;
    }
  | {
      readonly kind: "predict";
      /** Log probability that the shared errors pass in this way. */
      readonly logOdds: number;
      /** Cells with a film, and cells with a growing film. */
      readonly filmed: readonly CellName[];
      readonly growing: readonly CellName[];
      /** Cells whose clean gain drifts. */
      readonly drifting: readonly CellName[];
      /** Those of the growing films that grow less on deck; absent if there are none. */
      readonly lessOnDeck?: readonly CellName[];
      /** Cells whose film was last washed off in part; absent if there are none. */
      readonly washed?: readonly CellName[];
      /** Films came to both cells at once, during the cruise; absent if not. */
      readonly filmedAlike?: true;
      readonly interval: Interval;
    }
  | {
      readonly kind: "update";
      readonly logOdds: number;
      readonly proposal: Pick<Proposal, "shed" | "redrawnClean" | "coefficients">;
      readonly rows: Rows;
      /** Cells with an earlier film and no new layer. */
      readonly filmed: readonly CellName[];
    }
  | {
      readonly kind: "clean";
      readonly cell: CellName;
      readonly retained: Retained;
      readonly probability: number;
    };

/** Linked list, newest first. */
interface Steps {
  readonly step: FilterStep;
  readonly before?: Steps;
}

/** A segment of the updates of a hypothesis, and the segment before it. */
export interface Updates {
  /** The state at its start. */
  readonly start: Gaussian;
  readonly steps?: Steps;
  readonly earlier?: Updates;
}

export function withStep({ start, steps, earlier }: Updates, step: FilterStep): Updates {
  return {
    start,
    steps: steps === undefined ? { step } : { step, before: steps },
    ...(earlier === undefined ? {} : { earlier }),
  };
}

/** Start a new segment at this state; keep this many of the earlier ones. */
export function startSegment(updates: Updates, start: Gaussian, kept: number): Updates {
  const earlier = newest(updates, kept);
  return { start, ...(earlier === undefined ? {} : { earlier }) };
}

function newest({ earlier, ...own }: Updates, kept: number): Updates | undefined {
  if (kept === 0) return undefined;
  const before = earlier && newest(earlier, kept - 1);
  return before === undefined ? own : { ...own, earlier: before };
}

/** All steps in order, and the state before the first. */
export function allSteps(updates: Updates): {
  readonly start: Gaussian;
  readonly steps: readonly FilterStep[];
} {
  const steps: FilterStep[] = [];
  let { start } = updates;
  for (
    let segment: Updates | undefined = updates;
    segment !== undefined;
    segment = segment.earlier
  ) {
    start = segment.start;
    for (let at = segment.steps; at !== undefined; at = at.before) steps.push(at.step);
  }
  return { start, steps: steps.reverse() };
}
