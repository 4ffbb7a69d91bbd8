// The verdict on one cast as of the time of that cast.
import type { CellName } from "../cast/cast.js";
import type { Cruise } from "../cast/cruise.js";
import { adviceForAll } from "../cleaning/decision/adviceForAll.js";
import { defaultLadder } from "../cleaning/ladder/intensities.js";
import { defaultRecovery, updateRecovery } from "../model/recovery.js";
import { gainForSalinity } from "../model/salinityError.js";
import type { OutcomeOfCleaning } from "../track/cleaningOutcomes.js";
import { layoutOf } from "../track/layout.js";
import type { PastCast } from "../track/pastCast.js";
import type { TrackedCast } from "../track/tracked.js";
import type { AssessmentSettings } from "./assessmentSettings.js";
import { evidenceSummaries } from "./gather/evidenceSummary.js";
import type { CastEvidence } from "./gather/observeCast.js";
import { sensorsSeen } from "./gather/sensorsSeen.js";
import { adviceFor } from "./judge/adviceFor.js";
import { type CellContext, cellVerdict } from "./judge/cellVerdict.js";
import { contradictionNotes, lineResiduals } from "./judge/contradictions.js";
import { worstQuality } from "./judge/dataQuality.js";
import { earlierCasts } from "./judge/earlierCasts.js";
import type { JudgementInputs } from "./judge/judgementInputs.js";
import { withoutReference } from "./judge/withoutReference.js";
import { openQuestions } from "./plan/openQuestions.js";
import type { CleaningSeen, DataQuality, Verdict } from "./verdict.js";

/**
 * @param soFar    the casts up to this one
 * @param found    evidence of this cast
 * @param tracked     posterior of the filter after this cast
 * @param outcomes of past cleanings, as estimated at this cast
 * @param before   verdicts on the casts before this one, in order
 * @param judgedBy further inputs of the verdict
 */
export function castVerdict(
  cruise: Cruise,
  cells: readonly CellName[],
  soFar: readonly PastCast[],
  found: CastEvidence,
  tracked: TrackedCast,
  outcomes: readonly OutcomeOfCleaning[],
  before: readonly Verdict[],
  { hoursToNext, serials, isNewest, minutesAvailable: minutes }: JudgementInputs,
  { confidence, trainedHands, ladder = defaultLadder }: AssessmentSettings,
): Verdict {
  const { cast, water } = found;
  const evidence = evidenceSummaries(found);
  const contexts = cells.map((cell, i): CellContext => {
    const serial = serials[i];
    const unread = found.unread.find((one) => one.cell === cell);
    return {
      ...(serial === undefined ? {} : { serial }),
      layout: layoutOf(cells),
      cell,
      tracked: isNewest ? tracked : asItCameUp(tracked),
      evidence,
      earlier: earlierCasts(before, cell),
      everObserved: soFar.some(({ observed }) => observed.includes(cell)),
      target: cruise.target,
      target_ppm: Math.abs(gainForSalinity(-cruise.target)),
      hoursToNext,
      inWater_days: found.tracked.path?.days ?? 0,
      ...(water === undefined ? {} : { water }),
      ...(found.responses[cell] === undefined ? {} : { response: found.responses[cell] }),
      ...(unread === undefined ? {} : { unread }),
    };
  });
  const cleaned = outcomes.filter((o) => o.reportedInCast === cast.id).flatMap(cleaningSeen);
  const recoveries = cells.map((cell) => updateRecovery(defaultRecovery, outcomes, cell));
  const advices = contexts.map((context, i) =>
    adviceFor(context, outcomes, {
      instrument: cruise.instrument,
      ladder,
      recovery: recoveries[i]!,
      ...(trainedHands === undefined ? {} : { trainedHands }),
      ...(confidence === undefined ? {} : { confidence }),
      ...(minutes === undefined ? {} : { minutesAvailable: minutes }),
    }),
  );
  const { hypotheses } = tracked;
  const verdicts = contexts.map((context, i) =>
    cellVerdict(
      context,
      advices[i]!,
      lineResiduals(context.layout, hypotheses, found.tracked, context.cell),
    ),
  );
  return {
    cast: cast.id,
    ...(cast.start === undefined ? {} : { start: cast.start }),
    cells: Object.fromEntries(cells.map((cell, i) => [cell, verdicts[i]!])),
    advice: adviceForAll(advices),
    ...(cleaned.length === 0 ? {} : { cleaned }),
    evidence,
    ...sensorsSeen(found),
    wouldDecide: openQuestions(
      contexts.map((context, i) => ({
        context,
        causes: verdicts[i]!.causes,
        advice: advices[i]!,
        recovery: recoveries[i]!,
      })),
      soFar,
      found,
    ),
    data: worstQuality([...verdicts.map(({ data }) => data), ...ofHealth(found)]),
    notes: [
      ...verdicts.flatMap((verdict, i) => contradictionNotes(cells[i]!, verdict)),
      ...found.notes,
      ...withoutReference(cruise, soFar),
    ],
  };
}

/** For a cast that is not the newest: ignore the maintenance after it, because a verdict uses only the past. */
function asItCameUp(tracked: TrackedCast): TrackedCast {
  return { ...tracked, afterMaintenance: tracked.hypotheses };
}

/** Skip exchanges (the new cell was clean) and rinses with no measurable effect. */
function cleaningSeen(outcome: OutcomeOfCleaning): readonly CleaningSeen[] {
  const { afterCast, cell, intensity, retained } = outcome;
  if (intensity === "exchange") return [];
  if (intensity === "rinse" && retained.mean + 2 * retained.sd >= 1) return [];
  return [
    { afterCast, cell, intensity, retained: retained.mean, standardUncertainty: retained.sd },
  ];
}

/** Readings with a serious fault make the data quality questionable for any gain. */
function ofHealth({ health }: CastEvidence): readonly DataQuality[] {
  return health?.findings.some(({ serious }) => serious) ? ["questionable"] : [];
}
