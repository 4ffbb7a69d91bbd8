// The updates that led to a hypothesis, so that its likelihood can be recomputed for other noise parameters. They are plain
// data, so that a cruise can be stored and continued.
import type { CellName } from "../cast/cast.js";
import type { Beginning, Proposal, Retained } from "./cause.js";
import type { Gaussian } from "./gaussian.js";
import type { Rows } from "./rows.js";
import type { Passages } from "./sharedError.js";

/** The interval between one cast and the next. */
export interface Interval {
  readonly days: number;
  /** How shared errors pass, for lines that know more than usual. */
  readonly passages: Passages;
  /** Time in the water of the next cast, days. */
  readonly inWater_days: number;
}

/** A change of the coefficients; the file that creates a step also applies it. */
export type Step =
  | { readonly kind: "begin"; readonly cell: CellName; readonly beginning: Beginning }
  | {
      readonly kind: "begin-alike";
      /** Beginnings of the first cell, and of the second for its independent part. */
      readonly beginning: Beginning;
      readonly second: Beginning;
      /** Whether their clean gains are alike too. */
      readonly cleanAlike: boolean;
      readonly prior: number;
    }
  | {
      readonly kind: "predict";
      /** Cells with a film, and cells with a growing film. */
      readonly filmed: readonly CellName[];
      readonly growing: readonly CellName[];
      readonly interval: Interval;
    }
  | {
      readonly kind: "update";
      readonly logOdds: number;
      readonly proposal: Pick<Proposal, "shed" | "afresh" | "coefficients">;
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
  readonly step: Step;
  readonly before?: Steps;
}

/** A segment of the path of a hypothesis, and the segment before it. */
export interface Path {
  /** The state at its start. */
  readonly start: Gaussian;
  readonly steps?: Steps;
  readonly earlier?: Path;
}

export function withStep({ start, steps, earlier }: Path, step: Step): Path {
  return {
    start,
    steps: steps === undefined ? { step } : { step, before: steps },
    ...(earlier === undefined ? {} : { earlier }),
  };
}

/** Start a new segment at this state; keep this many of the earlier ones. */
export function newStretch(path: Path, start: Gaussian, kept: number): Path {
  const earlier = newest(path, kept);
  return { start, ...(earlier === undefined ? {} : { earlier }) };
}

function newest({ earlier, ...own }: Path, kept: number): Path | undefined {
  if (kept === 0) return undefined;
  const before = earlier && newest(earlier, kept - 1);
  return before === undefined ? own : { ...own, earlier: before };
}

/** All steps in order, and the state before the first. */
export function wholePath(path: Path): {
  readonly start: Gaussian;
  readonly steps: readonly Step[];
} {
  const steps: Step[] = [];
  let { start } = path;
  for (let stretch: Path | undefined = path; stretch !== undefined; stretch = stretch.earlier) {
    start = stretch.start;
    for (let at = stretch.steps; at !== undefined; at = at.before) steps.push(at.step);
  }
  return { start, steps: steps.reverse() };
}
