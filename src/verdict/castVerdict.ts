// The verdict on one cast, as it stood when that cast came up.
import type { CellName } from "../cast/cast.js";
import type { Cruise, CruiseCast } from "../cast/cruise.js";
import { adviceForAll } from "../cleaning/decision/adviceForAll.js";
import { defaultLadder } from "../cleaning/ladder/intensities.js";
import { seesGainOf } from "../model/observation.js";
import { defaultRecovery, updateRecovery } from "../model/recovery.js";
import { gainForSalinity } from "../model/salinityError.js";
import type { SeenCleaning } from "../track/cleaningOutcomes.js";
import { layoutOf } from "../track/layout.js";
import type { TrackedCast } from "../track/tracked.js";
import type { AssessmentSettings } from "./assessmentSettings.js";
import type { CastEvidence } from "./gather/cruiseEvidence.js";
import { evidenceSummaries } from "./gather/evidenceSummary.js";
import { sensorsSeen } from "./gather/sensorsSeen.js";
import { adviceFor } from "./judge/adviceFor.js";
import { type CellContext, cellVerdict } from "./judge/cellVerdict.js";
import { contradictionNotes, lineResiduals } from "./judge/contradictions.js";
import { worstQuality } from "./judge/dataQuality.js";
import { earlierCasts } from "./judge/earlierCasts.js";
import { withoutReference } from "./judge/withoutReference.js";
import { openQuestions } from "./plan/openQuestions.js";
import type { CleaningSeen, DataQuality, Verdict } from "./verdict.js";

/** Hours to the next cast where nothing tells (common practice, no source). */
const usualHours = 12;

/**
 * @param soFar    the casts up to this one
 * @param held     what the filter made of this one
 * @param outcomes of past cleanings, as told when it came up
 * @param before   verdicts on the casts before this one, in order
 * @param serials  of the cells on this cast, where they are known
 */
export function castVerdict(
  cruise: Cruise,
  cells: readonly CellName[],
  soFar: readonly CastEvidence[],
  held: TrackedCast,
  outcomes: readonly SeenCleaning[],
  before: readonly Verdict[],
  serials: readonly (string | undefined)[],
  { confidence, trainedHands, ladder = defaultLadder }: AssessmentSettings,
): Verdict {
  const index = soFar.length - 1;
  const found = soFar[index]!;
  const isLast = index === cruise.casts.length - 1;
  const { cast, water } = found;
  const evidence = evidenceSummaries(found);
  const contexts = cells.map((cell, i): CellContext => {
    const serial = serials[i];
    const unread = found.unread.find((one) => one.cell === cell);
    return {
      ...(serial === undefined ? {} : { serial }),
      layout: layoutOf(cells),
      cell,
      tracked: isLast ? held : asItCameUp(held),
      evidence,
      earlier: earlierCasts(before, cell),
      everObserved: soFar.some((earlier) => speaksOf(earlier, cell)),
      target: cruise.target,
      target_ppm: Math.abs(gainForSalinity(-cruise.target)),
      hoursToNext: hoursToNext(cruise, index),
      ...(water === undefined ? {} : { water }),
      ...(found.answers[cell] === undefined ? {} : { answer: found.answers[cell] }),
      ...(unread === undefined ? {} : { unread }),
    };
  });
  const minutes = isLast ? cruise.nextStation?.minutesAvailable : undefined;
  const cleaned = outcomes.filter((o) => o.toldInCast === cast.id).flatMap(cleaningSeen);
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
  const { hypotheses } = held;
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
    ),
    data: worstQuality([...verdicts.map(({ data }) => data), ...ofHealth(found)]),
    notes: [
      ...verdicts.flatMap((verdict, i) => contradictionNotes(cells[i]!, verdict)),
      ...found.notes,
      ...withoutReference(cruise, soFar),
    ],
  };
}

/** Of a cast that is not the last, what was done after it is left out: later is not looked at. */
function asItCameUp(tracked: TrackedCast): TrackedCast {
  return { ...tracked, now: tracked.hypotheses };
}

/** Skip exchanges (the new cell was clean) and rinses with no measurable effect. */
function cleaningSeen(outcome: SeenCleaning): readonly CleaningSeen[] {
  const { afterCast, cell, intensity, retained } = outcome;
  if (intensity === "exchange") return [];
  if (intensity === "rinse" && retained.mean + 2 * retained.sd >= 1) return [];
  return [
    { afterCast, cell, intensity, retained: retained.mean, standardUncertainty: retained.sd },
  ];
}

/** Whether a cast brought any observation of a cell. */
function speaksOf({ tracked }: CastEvidence, cell: CellName): boolean {
  return tracked.observations.some((observation) => seesGainOf(observation, cell));
}

function hoursToNext({ casts, nextStation }: Cruise, index: number): number {
  const from = Date.parse(casts[index]?.start ?? "");
  const next: CruiseCast | undefined = casts[index + 1];
  const to = Date.parse(next?.start ?? (next === undefined ? nextStation?.time : undefined) ?? "");
  return to > from ? (to - from) / 3_600_000 : usualHours;
}

/** Readings that should not be judged leave the cast in question, whatever the gain. */
function ofHealth({ health }: CastEvidence): readonly DataQuality[] {
  return health?.findings.some(({ serious }) => serious) ? ["questionable"] : [];
}
