// Whether a cell's verdict is open, and the sampling that would settle it.
import { sum } from "d3-array";
import type { IntensityName } from "../../cast/maintenance.js";
import { causeNamed } from "../../causes/index.js";
import type { Advice } from "../../cleaning/decision/advice.js";
import { type Hypothesis, mixtureOf, weightOf } from "../../model/hypothesis.js";
import type { Recovery } from "../../model/recovery.js";
import { mixtureMean, mixtureStandardDeviation } from "../../statistics/mixture.js";
import { byCause } from "../../track/cellView.js";
import type { PastCast } from "../../track/pastCast.js";
import type { CastEvidence } from "../gather/observeCast.js";
import type { CellContext } from "../judge/cellVerdict.js";
import { measuresToReadCell } from "../judge/unread.js";
import type { CauseProbability } from "../verdict.js";
import { type AvailableMeans, optionsInOrder } from "./options.js";
import type { Planning, Sampling } from "./samplings.js";
import { choiceOf, settledFrom, standingOf } from "./settled.js";
import { wouldDecide } from "./wouldDecide.js";

/**
 * Assumed number of bottles on a cast before the cruise has closed any (common practice, no source: rosettes hold 12, 24 or
 * 36).
 */
const usualRosette = 24;

/** A cell's verdict and its context. */
interface Asked {
  readonly context: CellContext;
  /** Most probable first. */
  readonly causes: readonly CauseProbability[];
  readonly advice: Advice;
  /** The share of a film that cleanings leave on this cell. */
  readonly recovery: Recovery;
}

/**
 * @param asked  the cells of one cast
 * @param soFar  the casts up to this one
 * @param found  evidence of this cast
 * @returns no sentence for a settled cell, one for an open cell, and one for both cells if the question concerns the
 *   references of the cast and not a cell
 */
export function openQuestions(
  asked: readonly Asked[],
  soFar: readonly PastCast[],
  found: CastEvidence,
): readonly string[] {
  const open = asked.map((one) => ({ one, between: questionOf(one) }));
  return open.flatMap(({ one, between }, i) => {
    const { cell, everObserved, unread } = one.context;
    if (unread !== undefined) return [measuresToReadCell(unread)];
    if (!everObserved) {
      return [
        `Reference bottles on the next cast, in calm deep water, would give a first verdict on the ${cell} cell.`,
      ];
    }
    if (between === undefined) return [];
    const alike = open.filter((other) => sameOfCast(between, other.between));
    if (alike.length > 1 && open.indexOf(alike[0]!) < i) return [];
    const cells = (alike.length > 1 ? alike : [{ one }]).map(
      ({ one: { context } }) => context.cell,
    );
    return [answerOf(one, between, cells.join(" and the "), soFar, found)];
  });
}

/** The two causes of the question: the most probable, and the most probable one that needs a different action. */
type Between = readonly [CauseProbability, CauseProbability];

function questionOf({ context, causes }: Asked): Between | undefined {
  const { layout, cell, tracked, target_ppm } = context;
  if (standingOf(layout, cell, tracked.hypotheses, target_ppm).settled) return undefined;
  const [first, next] = causes;
  if (first === undefined || next === undefined) return undefined;
  const others = causes.filter(({ cause }) => choiceOf(cause) !== choiceOf(first.cause));
  const rest = sum(others, ({ probability }) => probability);
  // If the action is practically certain, the gain is not known well enough, and the first two causes are the question.
  return [first, rest > 1 - settledFrom ? others[0]! : next];
}

/** Whether two cells have the same question about the references that they share. */
function sameOfCast(one: Between, other: Between | undefined): boolean {
  const names = (between: Between) => between.map(({ cause }) => cause).sort();
  return (
    other !== undefined &&
    one.some(({ cause }) => causeNamed(cause).doubtLastsWith !== undefined) &&
    names(one).join() === names(other).join()
  );
}

function answerOf(
  { context, advice, recovery }: Asked,
  causes: Between,
  cells: string,
  soFar: readonly PastCast[],
  found: CastEvidence,
): string {
  const { layout, cell, tracked, target_ppm, hoursToNext } = context;
  const planning: Planning = {
    layout,
    input: found.tracked,
    days: hoursToNext / 24,
    noise: tracked.noise,
    scans: found.hasScans,
    bottleNoise: found.bottleNoise,
  };
  const { hypotheses, afterMaintenance } = tracked;
  const ofThisCast = causes.some(({ cause }) => causeNamed(cause).isTemporary);
  const means = meansOf(context, soFar, found, advice, recovery);
  const tell = (sampling: Sampling) => expectedBy(context, causes, sampling);
  return wouldDecide(
    { cell: cells, causes },
    optionsInOrder(
      planning,
      cell,
      hypotheses,
      afterMaintenance,
      target_ppm,
      means,
      ofThisCast,
      tell,
    ),
  );
}

function meansOf(
  { cell }: CellContext,
  soFar: readonly PastCast[],
  { depths }: CastEvidence,
  advice: Advice,
  recovery: Recovery,
): AvailableMeans {
  const closed = soFar.map(({ lines }) => lines.bottles ?? 0);
  const usual = soFar
    .slice(0, -1)
    .flatMap(({ maintenanceAfter }) => maintenanceAfter)
    .filter((event) => event.cell === undefined || event.cell === cell)
    .map(({ action }) => action)
    .findLast((action): action is IntensityName => ["wash", "soak", "disinfect"].includes(action));
  return {
    depths,
    mostBottles: Math.max(...closed) || usualRosette,
    ...(usual === undefined ? {} : { usualCleaning: usual }),
    advice,
    recovery,
  };
}

/** The reading that the two causes expect of the cell against bottles; bottles are the last row of a sampling. */
function expectedBy(
  { layout, cell, tracked: { afterMaintenance } }: CellContext,
  causes: Between,
  { rows }: Sampling,
): string | undefined {
  const row = rows.at(-1)?.row;
  const groups = byCause(layout, afterMaintenance, cell);
  const [one, other] = causes.map(({ cause }) => groups.get(cause));
  if (row === undefined || one === undefined || other === undefined) return undefined;
  const [a, b] = [momentsOf(one, row), momentsOf(other, row)];
  if (readAlike(a, b)) return undefined;
  return (
    `${causes[0].cause} expects the ${layout.cells[0]} cell to read ${written(a)} against them, ` +
    `${causes[1].cause} ${written(b)}`
  );
}

interface Moments {
  readonly mean: number;
  readonly sd: number;
}

/** Whether the two predictions are neither separate nor very different in width, so that a single reading cannot decide. */
function readAlike(a: Moments, b: Moments): boolean {
  const [narrow, wide] = [Math.min(a.sd, b.sd), Math.max(a.sd, b.sd)];
  // Similar enough to be equal in a forecast (judgement).
  return Math.abs(a.mean - b.mean) < narrow / 2 && wide < 1.5 * narrow;
}

function momentsOf(members: readonly Hypothesis[], row: Float64Array): Moments {
  const total = weightOf(members);
  const mixture = mixtureOf(members, row).map((one) => ({ ...one, weight: one.weight / total }));
  return { mean: mixtureMean(mixture), sd: mixtureStandardDeviation(mixture) };
}

function written({ mean, sd }: Moments): string {
  const words = mean.toFixed(0);
  const sign = Number(words) > 0 ? "+" : "";
  return `${sign}${words === "-0" ? "0" : words} ± ${sd.toFixed(0)} ppm`;
}
