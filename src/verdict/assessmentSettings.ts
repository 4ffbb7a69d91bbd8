// What a caller may choose.
import type { Ladder } from "../cleaning/ladder/intensity.js";
import type { CellRecord } from "../history/cellRecord.js";

/** What a caller may choose; everything has a default. */
export interface AssessmentSettings {
  /** Confidence with which a cleaning must leave the cell within the target. Default 0.9. */
  readonly confidence?: number;
  /** The ship's own cleaning procedure; the default ladder where absent. */
  readonly ladder?: Ladder;
  /** Whether people trained in acid and in opening the instrument are aboard; see Circumstances. */
  readonly trainedHands?: boolean;
  /**
   * What earlier cruises taught of the cells, by serial number, as `cellHistory` gives it; of any cells and cruises. The
   * filter begins with it. A cell that is exchanged in mid-cruise begins without.
   */
  readonly history?: readonly CellRecord[];
  /** Called after each cast, for a progress line. */
  readonly onCast?: (done: number, of: number, cast: string) => void;
}
