// The numbers behind a cause, as plain data: what the sentences of a verdict are made of.
import type { CellName, LegName } from "../cast/cast.js";
import type { Estimate, Moments } from "./estimate.js";
import type { LeftOut } from "./observation.js";
import type { ResponseSigns } from "./responseSigns.js";

export interface ChangeOfGain {
  readonly kind: "none" | "transient" | "step" | "drift";
  /** The first cast that shows it. */
  readonly sinceCast?: string;
  /** Whether it came before that cast's down leg, within the cast, or was there from the start. */
  readonly when?: "from the start" | "before" | "within" | "after";
  readonly leg?: LegName;
  readonly pressure_dbar?: number;
  readonly probability: number;
}

/** What one line of evidence says on its own. */
export interface EvidenceSummary {
  readonly line: string;
  readonly cell: CellName | "both";
  readonly n: number;
  readonly ppm: number;
  readonly standardUncertainty: number;
  /** Its share of the precision of all lines of this cast that speak of the cell. */
  readonly weight: number;
  readonly leftOut: readonly LeftOut[];
  readonly notes: readonly string[];
}

/** For one cell on one cast, over the hypotheses that give one cause. */
export interface Grounds {
  readonly cell: CellName;
  readonly up: Estimate;
  readonly cleanGain: Estimate;
  readonly film: Estimate;
  /** ppm per 1000 dbar. */
  readonly pressure: Moments;
  /** mK. */
  readonly thermometer: Moments;
  /** uS/cm. */
  readonly offset: Moments;
  readonly change: ChangeOfGain;
  readonly evidence: readonly EvidenceSummary[];
  /** Salinity, PSS-78. */
  readonly target: number;
  /** Casts up to this one. */
  readonly castsSeen: number;
  /** How the cell answered; absent without scans. */
  readonly signs?: ResponseSigns;
}
