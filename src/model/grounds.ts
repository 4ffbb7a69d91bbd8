// The numbers behind a cause, as plain data: what the sentences of a verdict are made of.
import type { CellName } from "../cast/cast.js";
import type { ChangeOfGain } from "./changeOfGain.js";
import type { Moments } from "./estimate.js";
import type { EvidenceSummary } from "./evidenceSummary.js";
import type { Estimate } from "./parts.js";
import type { ResponseSigns } from "./responseSigns.js";

/** A cast before this one, and whether its own verdict called the cell sound. */
export interface EarlierCast {
  readonly cast: string;
  readonly sound: boolean;
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
  /** In order. */
  readonly earlier: readonly EarlierCast[];
  /** How the cell answered; absent without scans. */
  readonly signs?: ResponseSigns;
}
