// The main job: from a cruise in any state of completeness to a verdict on every cast.
import type { CellName } from "../cast/cast.js";
import type { Cruise, CruiseCast } from "../cast/cruise.js";
import { adviceForAll } from "../cleaning/decision/adviceForAll.js";
import { defaultConfidence } from "../cleaning/decision/decide.js";
import { defaultLadder } from "../cleaning/ladder/intensities.js";
import type { Ladder } from "../cleaning/ladder/intensity.js";
import { seesGainOf } from "../model/observation.js";
import { defaultRecovery, updateRecovery } from "../model/recovery.js";
import { gainForSalinity } from "../model/salinityError.js";
import { checkCruise } from "../read/checkCruise.js";
import { software } from "../software.js";
import { cleaningOutcomes, type SeenCleaning } from "../track/cleaningOutcomes.js";
import { layoutOf } from "../track/layout.js";
import { track } from "../track/track.js";
import type { TrackedCast } from "../track/tracked.js";
import { type CastEvidence, cellsOf, cruiseEvidence } from "./gather/cruiseEvidence.js";
import { evidenceSummaries } from "./gather/evidenceSummary.js";
import { sensorsSeen } from "./gather/sensorsSeen.js";
import { adviceFor } from "./judge/adviceFor.js";
import { type CellContext, cellVerdict } from "./judge/cellVerdict.js";
import { worstQuality } from "./judge/dataQuality.js";
import { openQuestions } from "./plan/openQuestions.js";
import {
  type CleaningSeen,
  type DataQuality,
  type Verdict,
  type VerdictDocument,
  verdictFormat,
} from "./verdict.js";

/** What a caller may choose; everything has a default. */
export interface AssessmentSettings {
  /** Confidence with which a cleaning must leave the cell within the target. Default 0.9. */
  readonly confidence?: number;
  /** The ship's own cleaning procedure; the default ladder where absent. */
  readonly ladder?: Ladder;
  /** Whether people trained in acid and in opening the instrument are aboard; see Circumstances. */
  readonly trainedHands?: boolean;
  /** Called after each cast's evidence is gathered, for a progress line. */
  readonly onCast?: (done: number, of: number, cast: string) => void;
}

/** Hours to the next cast where nothing tells (common practice, no source). */
const usualHours = 12;

/**
 * A verdict on every cast of a cruise, each from its own evidence and what came before it.
 * @param given casts, bottles and maintenance in any state of completeness, at least one cast
 * @throws RangeError where the cruise has no cast, BadInput where it holds what the readers refuse
 * @example assessCruise(cruise).casts.at(-1)?.advice.intensity
 */
export function assessCruise(given: Cruise, settings: AssessmentSettings = {}): VerdictDocument {
  const cruise = checkCruise(given);
  const last = cruise.casts.at(-1);
  if (last === undefined)
    throw new RangeError("a cruise to assess has at least one cast, found none");
  const cells = cellsOf(cruise);
  const evidence: CastEvidence[] = [];
  for (const found of cruiseEvidence(cruise)) {
    evidence.push(found);
    settings.onCast?.(evidence.length, cruise.casts.length, found.cast.id);
  }
  const inputs = evidence.map((found) => found.tracked);
  const tracked = track(cells, inputs, defaultRecovery);
  const pastCleanings = cells.map((cell) =>
    cleaningOutcomes(layoutOf(cells), inputs, tracked, cell),
  );
  return {
    format: verdictFormat,
    cruise: {
      name: cruise.name,
      ...(cruise.note === undefined ? {} : { note: cruise.note }),
      target: cruise.target,
    },
    settings: {
      confidence: settings.confidence ?? defaultConfidence,
      procedure: settings.ladder === undefined ? "usual" : "the ship's own",
      ...(settings.trainedHands === undefined ? {} : { trainedHands: settings.trainedHands }),
    },
    casts: evidence.map((_, i) =>
      verdictOf(cruise, cells, evidence, tracked, pastCleanings, i, settings),
    ),
    latest: last.id,
    software,
    inputs: cruise.inputs,
  };
}

/**
 * The verdict on one cast, as it stood when that cast came up: later casts are not looked at.
 * @throws RangeError where the cruise has no such cast
 */
export function assessCast(
  cruise: Cruise,
  cast: string,
  settings: AssessmentSettings = {},
): Verdict {
  const verdict = assessCruise(cruise, settings).casts.find((found) => found.cast === cast);
  if (verdict === undefined) throw new RangeError(`the cruise has no cast ${cast}`);
  return verdict;
}

function verdictOf(
  cruise: Cruise,
  cells: readonly CellName[],
  all: readonly CastEvidence[],
  tracked: readonly TrackedCast[],
  pastCleanings: readonly ReturnType<typeof cleaningOutcomes>[],
  index: number,
  { confidence, trainedHands, ladder = defaultLadder }: AssessmentSettings,
): Verdict {
  const found = all[index]!;
  const { cast, water } = found;
  const evidence = evidenceSummaries(found);
  const contexts = cells.map(
    (cell): CellContext => ({
      layout: layoutOf(cells),
      cell,
      tracked: index === all.length - 1 ? tracked[index]! : asItCameUp(tracked[index]!),
      evidence,
      castsSeen: index + 1,
      everObserved: all.slice(0, index + 1).some((earlier) => speaksOf(earlier, cell)),
      target: cruise.target,
      target_ppm: Math.abs(gainForSalinity(-cruise.target)),
      hoursToNext: hoursToNext(cruise, index),
      ...(water === undefined ? {} : { water }),
      ...(found.answers[cell] === undefined ? {} : { answer: found.answers[cell] }),
    }),
  );
  const minutes = index === all.length - 1 ? cruise.nextStation?.minutesAvailable : undefined;
  const outcomes = pastCleanings.flatMap((outcomesUntil) => outcomesUntil(index));
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
  const verdicts = contexts.map((context, i) => cellVerdict(context, advices[i]!));
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
      all.slice(0, index + 1),
    ),
    data: worstQuality([...verdicts.map(({ data }) => data), ...ofHealth(found)]),
    notes: [...found.notes, ...withoutReference(cruise, all.slice(0, index + 1))],
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

/** What must be known of a verdict that no reference has been held against yet. */
function withoutReference(
  { deepReference }: Cruise,
  soFar: readonly CastEvidence[],
): readonly string[] {
  // Without a table the deep water of a cast is held against that of the casts before only.
  const lines = deepReference === undefined ? ["bottles"] : ["bottles", "deep-water"];
  const referred = soFar.some(({ tracked }) =>
    tracked.observations.some(({ line }) => lines.includes(line)),
  );
  return referred
    ? []
    : [
        "no reference yet: an error that was there before the first cast is judged only by what calibrations " +
          "usually hold and by the cells against each other",
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
