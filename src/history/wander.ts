// What a clean gain may have become since it was last read, and whether a calibration lies between.
import { cleanNoise } from "../model/noise.js";
import type { CellRecord } from "./cellRecord.js";

/**
 * The two cells of [JAMSTECRecords] drifted evenly, by 0.0001 in salinity a month, 2.6 ppm: over a year three times what
 * a random walk of that size allows. So a rate that is not known is added, as a standard deviation, ppm a day.
 */
const driftRate = 2.6 / 30.4;

/** Variance of the change of a clean gain over so many days, ppm squared: the filter's own random walk, and a drift. */
export function wander(days: number): number {
  return cleanNoise.usual ** 2 * days + (driftRate * days) ** 2;
}

/** The last calibration on record that came after a cell's last cast, which therefore says nothing of it. */
export function calibrationAfter({
  calibrations,
  to,
}: CellRecord): CellRecord["calibrations"][number] | undefined {
  const ended = Date.parse(to.start ?? "");
  return calibrations.findLast(
    ({ afterCast, time }) => afterCast === to.cast || Date.parse(time ?? "") > ended,
  );
}
