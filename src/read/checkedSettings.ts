// Check the settings of a cruise and its deep-water table.
import type { Cruise } from "../cast/cruise.js";
import { quoted } from "./badInput.js";
import { columnOf } from "./checkedCast.js";
import { checkedTime, type OnFault } from "./checkedParts.js";
import { timeZonePattern } from "./timeZone.js";

export function checkSettings(
  { target, nextStation, timeZone, deepReference }: Cruise,
  fault: OnFault,
): void {
  if (!(target > 0 && target <= 1)) {
    const mend = "Give the required salinity accuracy, such as 0.002.";
    fault("target", quoted(target), "a number above 0, 1 at the most", mend);
  }
  checkedTime("nextStation.time", nextStation?.time, fault);
  const minutes = nextStation?.minutesAvailable;
  if (minutes !== undefined && !(minutes >= 0)) {
    const mend = "Correct it, or leave it out.";
    fault("nextStation.minutesAvailable", quoted(minutes), "minutes, from 0 up", mend);
  }
  const { air_C, castsToCome } = nextStation ?? {};
  for (const [name, value] of Object.entries({ air_C, castsToCome })) {
    if (value === undefined || Number.isFinite(value)) continue;
    fault(`nextStation.${name}`, quoted(value), "a number", "Correct it, or leave it out.");
  }
  if (timeZone !== undefined && !timeZonePattern.test(timeZone)) {
    const mend = "Write the time on board minus UTC, or leave it out.";
    fault("timeZone", quoted(timeZone), "a difference such as +02:00", mend);
  }
  if (deepReference === undefined) return;
  const { potentialTemperature_C, salinity, rowUncertainty } = deepReference;
  const lengths = [potentialTemperature_C, salinity, rowUncertainty].map((values) => {
    const column = columnOf(values);
    return typeof column === "string" ? -1 : column.length;
  });
  if (lengths[0]! < 1 || lengths.some((length) => length !== lengths[0])) {
    const mend = "Give one number for each row in each of the three.";
    fault("deepReference", `columns of ${lengths.join(", ")} rows`, "three of one length", mend);
  }
}
