// The possible change of a clean gain since its last reading, and whether a calibration lies between.
import type { CellRecord } from "./cellRecord.js";

/** The same movement of well-kept cells, 0.0001 in salinity a month [JAMSTECRecords], as a random walk: ppm per square root of a day. */
const walk = 0.5;
/**
 * The two cells of [JAMSTECRecords] drifted steadily, by 0.0001 in salinity a month, 2.6 ppm. Over a year that is three
 * times the change of a random walk of that size. So an unknown drift is added, as a standard deviation, ppm a day.
 */
const driftRate = 2.6 / 30.4;

/** Variance of the change of a clean gain over this many days, ppm squared: a random walk and a drift. */
export function driftVariance(days: number): number {
  return walk ** 2 * days + (driftRate * days) ** 2;
}

/** The last recorded calibration after a cell's last cast; that cast has no information about the cell since. */
export function calibrationAfter({
  calibrations,
  to,
}: CellRecord): CellRecord["calibrations"][number] | undefined {
  const ended = Date.parse(to.start ?? "");
  return calibrations.findLast(
    ({ afterCast, time }) => afterCast === to.cast || Date.parse(time ?? "") > ended,
  );
}
