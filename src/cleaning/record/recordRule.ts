// The contract of a rule for the maintenance record.
import type { Entry, Timeline } from "./recordTimeline.js";

/**
 * `error`: impossible as written. `danger`: can hurt people. `warning`: can damage the instrument or the data. `note`: the
 * record is incomplete.
 */
export const severities = ["error", "danger", "warning", "note"] as const;
export type Severity = (typeof severities)[number];

export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly because: string;
  /** Basis of the rule: a key of docs/references.md, or "common practice, no source". */
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

/** A finding of a rule. */
export interface Breach {
  readonly because: string;
  /** The entry at fault, if the fault is in one. */
  readonly entry?: Entry;
  /** Index of the cast, if the fault concerns one. */
  readonly cast?: number;
  /** Severity, if it differs from that of the rule. */
  readonly severity?: Severity;
  /** Source, if it differs from that of the rule. */
  readonly source?: string;
}
