// The numbers behind a cause, as plain data, for the sentences of a verdict.
import type { CellName } from "../cast/cast.js";
import type { ChangeOfGain } from "./changeOfGain.js";
import type { ValueWithUncertainty } from "./estimate.js";
import type { EvidenceSummary } from "./evidenceSummary.js";
import type { Estimate } from "./parts.js";
import type { ResponseSigns } from "./responseSigns.js";

/** A cast before this one, and whether its own verdict called the cell sound. */
export interface EarlierCast {
  readonly cast: string;
  readonly sound: boolean;
}

/** Estimates for one cell on one cast, from the hypotheses that give one cause. */
export interface CauseEstimates {
  readonly cell: CellName;
  readonly up: Estimate;
  readonly cleanGain: Estimate;
  readonly film: Estimate;
  /** Unit: ppm per 1000 dbar. */
  readonly pressure: ValueWithUncertainty;
  /** Unit: mK. */
  readonly thermometer: ValueWithUncertainty;
  /** Unit: uS/cm. */
  readonly offset: ValueWithUncertainty;
  readonly change: ChangeOfGain;
  readonly evidence: readonly EvidenceSummary[];
  /** Salinity, PSS-78. */
  readonly target: number;
  /** In order of time. */
  readonly earlier: readonly EarlierCast[];
  /** The response of the cell; absent without scans. */
  readonly signs?: ResponseSigns;
}
