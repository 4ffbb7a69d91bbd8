// What is expected and how to mend it, for faults that are found both in files and in values passed in memory.
import { maintenanceActions, mostInAir_mS_cm } from "../cast/maintenance.js";

/** As [expected, mend]. */
export type Mend = readonly [expected: string, mend: string];

export const timeMend: Mend = [
  "a time such as 2031-05-04T12:30:00Z",
  "Write the time as ISO 8601, in UTC.",
];
export const actionMend: Mend = [
  `one of ${maintenanceActions.join(", ")}`,
  "Write the action by one of these names; `other` with a note for the rest.",
];
export const readingInAirMend: Mend = [
  `a reading in air, within ${mostInAir_mS_cm} mS/cm of zero`,
  "If it is in uS/cm, divide it by 1000. A cell that reads that much holds water: drain it and read again.",
];
