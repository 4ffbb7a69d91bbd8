// Plain data on a cell for several findings.
import type { CellColumns, CellName } from "../cast/cast.js";
import type { ColumnSummary } from "./columnSummary.js";
import type { Settling } from "./finding.js";

export interface Drop {
  readonly from: number;
  readonly to: number;
  /** Decrease relative to the surrounding water, mS/cm. */
  readonly depth: number;
}

export interface Dropouts {
  readonly count: number;
  /** First and last scan of each unbroken run. */
  readonly runs: readonly (readonly [from: number, to: number])[];
}

export interface Spikes {
  /** First scan of each, in order. */
  readonly at: readonly number[];
  /** Reading minus the median of its neighbours, in the unit of the sensor. */
  readonly size: readonly number[];
}

/** One sensor of a cell. */
export interface SensorStatistics {
  readonly survey: ColumnSummary;
  /** Standard deviation in the calm parts, in the unit of the column. */
  readonly noise: number;
  readonly dropouts: Dropouts;
  readonly spikes: Spikes;
}

export interface CellStatistics {
  readonly cell: CellName;
  readonly readings: CellColumns;
  readonly conductivity: SensorStatistics;
  readonly temperature: SensorStatistics;
  readonly drops: readonly Drop[];
  readonly settling: Settling | undefined;
}
