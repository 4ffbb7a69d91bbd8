// Whether a cell's verdict is open, and what would settle it.
import type { IntensityName } from "../cast/maintenance.js";
import type { CauseName } from "../causes/causeNames.js";
import type { Advice } from "../cleaning/advice.js";
import { mixtureMean, mixtureStandardDeviation } from "../statistics/mixture.js";
import type { Hypothesis } from "../track/hypothesis.js";
import type { Recovery } from "../track/track.js";
import { calmDepths } from "./calmDepths.js";
import { byCause, type CellContext } from "./cellVerdict.js";
import type { CastEvidence } from "./cruiseEvidence.js";
import { mixtureOf } from "./estimate.js";
import { type Means, optionsInOrder } from "./options.js";
import type { Planning, Sampling } from "./samplings.js";
import { choiceOf, standingOf } from "./settled.js";
import type { CauseProbability } from "./verdict.js";
import { wouldDecide } from "./wouldDecide.js";

/** Held against one cast; at the next the model asks anew. */
const passing: readonly CauseName[] = ["transient", "thermal-lag", "flow", "water", "undetermined"];
/** Bottles on a cast, where the cruise has not closed any yet. */
const usualRosette = 24;

/**
 * @param causes   the verdict's, most probable first
 * @param soFar    the casts up to this one
 * @param advice   on this cell
 * @param recovery what cleanings leave on this cell
 * @returns no sentence where the verdict is settled, one where it is open
 */
export function openQuestions(
  context: CellContext,
  causes: readonly CauseProbability[],
  soFar: readonly CastEvidence[],
  advice: Advice,
  recovery: Recovery,
): readonly string[] {
  const { layout, cell, tracked, target_ppm, hoursToNext, everObserved } = context;
  const found = soFar.at(-1);
  if (found === undefined) return [];
  if (!everObserved) {
    return [
      `Reference bottles on the next cast, in calm deep water, would give a first verdict on the ${cell} cell.`,
    ];
  }
  if (standingOf(layout, cell, tracked.hypotheses, target_ppm).settled) return [];
  const [first] = causes;
  const second =
    causes.find(({ cause }) => choiceOf(cause) !== choiceOf(first!.cause)) ?? causes[1];
  if (first === undefined || second === undefined) return [];
  const planning: Planning = {
    layout,
    input: found.tracked,
    days: hoursToNext / 24,
    noise: tracked.noise,
    bottleScale: found.bottleScale,
  };
  const question = { cell, causes: [first, second] };
  const tell = (sampling: Sampling) => expectedBy(context, question.causes, sampling);
  const { hypotheses, now } = tracked;
  const ofThisCast = question.causes.some(({ cause }) => passing.includes(cause));
  const means = meansOf(context, soFar, found, advice, recovery);
  return [
    wouldDecide(
      question,
      optionsInOrder(planning, cell, hypotheses, now, target_ppm, means, ofThisCast, tell),
    ),
  ];
}

function meansOf(
  { cell }: CellContext,
  soFar: readonly CastEvidence[],
  { cast, tracked }: CastEvidence,
  advice: Advice,
  recovery: Recovery,
): Means {
  const closed = soFar.map(
    ({ tracked: { observations } }) => observations.filter(({ line }) => line === "bottles").length,
  );
  const usual = soFar
    .slice(0, -1)
    .flatMap(({ tracked: { maintenanceAfter } }) => maintenanceAfter)
    .filter((event) => event.cell === undefined || event.cell === cell)
    .map(({ action }) => action)
    .findLast((action): action is IntensityName => ["wash", "soak", "disinfect"].includes(action));
  return {
    depths: calmDepths(
      cast.data,
      tracked.observations.filter(({ line }) => line === "bottles"),
    ),
    mostBottles: Math.max(...closed) || usualRosette,
    ...(usual === undefined ? {} : { usualCleaning: usual }),
    advice,
    recovery,
  };
}

/** What the causes in question expect the last row of a sampling to read. */
function expectedBy(
  { layout, cell, tracked: { now } }: CellContext,
  causes: readonly CauseProbability[],
  { rows }: Sampling,
): string | undefined {
  const last = rows.at(-1);
  if (last === undefined) return undefined;
  const groups = byCause(layout, now, cell);
  const told = causes.flatMap(({ cause }) => {
    const members = groups.get(cause);
    return members === undefined ? [] : [`${cause} expects ${read(members, last.row)}`];
  });
  return told.length < causes.length ? undefined : told.join(", ");
}

function read(members: readonly Hypothesis[], row: Float64Array): string {
  const total = members.reduce((sum, { logWeight }) => sum + Math.exp(logWeight), 0);
  const mixture = mixtureOf(members, row).map((one) => ({ ...one, weight: one.weight / total }));
  const mean = mixtureMean(mixture);
  const sd = mixtureStandardDeviation(mixture);
  return `${mean > 0 ? "+" : ""}${mean.toFixed(0)} ± ${sd.toFixed(0)} ppm of them`;
}
