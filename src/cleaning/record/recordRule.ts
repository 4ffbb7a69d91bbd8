// The contract of a rule for the maintenance record.
import type { Entry, Timeline } from "./recordTimeline.js";

/**
 * `error`: cannot be true as written. `danger`: can hurt people. `warning`: can hurt the instrument or the data.
 * `note`: the record does not say enough.
 */
export const severities = ["error", "danger", "warning", "note"] as const;
export type Severity = (typeof severities)[number];

export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly because: string;
  /** What the rule rests on: a key of docs/references.md, or "common practice, no source". */
  readonly source: string;
  /** Id of the cast it belongs to. */
  readonly cast?: string;
  /** Line in the record's file. */
  readonly line?: number;
}

export interface RecordRule {
  readonly name: string;
  readonly severity: Severity;
  readonly source: string;
  readonly find: (timeline: Timeline) => readonly Breach[];
}

/** What a rule found. */
export interface Breach {
  readonly because: string;
  /** The entry at fault, where it is one. */
  readonly entry?: Entry;
  /** Index of the cast, where it is one. */
  readonly cast?: number;
  /** Where it is less, or more, than the rule's own. */
  readonly severity?: Severity;
  /** Where it is another than the rule's own. */
  readonly source?: string;
}
