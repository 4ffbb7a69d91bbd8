// Check a maintenance record by its rules.
import type { Finding, RecordRule } from "./recordRule.js";
import {
  dangerousMixture,
  leftStanding,
  noFinalFlush,
  noRinse,
  tooStrong,
} from "./recordRules/cleanings.js";
import {
  contradictsCast,
  future,
  noTime,
  overlap,
  unknownCast,
} from "./recordRules/contradictions.js";
import {
  calibrationOutOfDate,
  longStorage,
  noSerial,
  sealsNotInspected,
  weakBattery,
} from "./recordRules/keeping.js";
import { type MaintenanceRecord, timelineOf } from "./recordTimeline.js";

export const recordRules: readonly RecordRule[] = [
  noTime,
  future,
  unknownCast,
  contradictsCast,
  overlap,
  dangerousMixture,
  noFinalFlush,
  leftStanding,
  tooStrong,
  noRinse,
  longStorage,
  weakBattery,
  sealsNotInspected,
  calibrationOutOfDate,
  noSerial,
];

/**
 * Faults of a maintenance record, by rule, in order of the lines; faults without a line come last.
 * @throws RangeError if `now` is not a time
 */
export function checkRecord(record: MaintenanceRecord): readonly Finding[] {
  const timeline = timelineOf(record);
  return recordRules
    .flatMap((rule) =>
      rule.find(timeline).map(({ because, entry, cast, severity, source }): Finding => {
        const id = timeline.casts[cast ?? entry?.after ?? Number.NaN]?.id;
        const line = entry?.event.line;
        return {
          rule: rule.name,
          severity: severity ?? rule.severity,
          because,
          source: source ?? rule.source,
          ...(id === undefined ? {} : { cast: id }),
          ...(line === undefined ? {} : { line }),
        };
      }),
    )
    .sort((a, b) => lineOf(a) - lineOf(b));
}

function lineOf({ line }: Finding): number {
  return line ?? Number.MAX_SAFE_INTEGER;
}
