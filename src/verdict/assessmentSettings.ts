// Settings of an assessment.
import type { Ladder } from "../cleaning/ladder/intensity.js";
import type { CellRecord } from "../history/cellRecord.js";

/** Settings of an assessment; each has a default. */
export interface AssessmentSettings {
  /** Required probability that a cleaning brings the cell within the target. Default 0.9. */
  readonly confidence?: number;
  /** The ship's own cleaning procedure; the default ladder if absent. */
  readonly ladder?: Ladder;
  /** Whether people trained in acid and in opening the instrument are aboard; see Circumstances. */
  readonly trainedHands?: boolean;
  /**
   * Results of earlier cruises for the cells, by serial number, as `cellHistory` returns them. They may contain any cells
   * and cruises. The filter starts from them. A cell that is fitted in mid-cruise starts without them.
   */
  readonly history?: readonly CellRecord[];
  /** Called after each cast, for a progress line. */
  readonly onCast?: (done: number, of: number, cast: string) => void;
}
