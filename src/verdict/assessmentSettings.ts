// What a caller may choose.
import type { Ladder } from "../cleaning/ladder/intensity.js";

/** What a caller may choose; everything has a default. */
export interface AssessmentSettings {
  /** Confidence with which a cleaning must leave the cell within the target. Default 0.9. */
  readonly confidence?: number;
  /** The ship's own cleaning procedure; the default ladder where absent. */
  readonly ladder?: Ladder;
  /** Whether people trained in acid and in opening the instrument are aboard; see Circumstances. */
  readonly trainedHands?: boolean;
  /** Called after each cast, for a progress line. */
  readonly onCast?: (done: number, of: number, cast: string) => void;
}
