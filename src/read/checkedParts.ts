// Check bottles, times and the record of a cruise that did not come from files, as the readers check files.
import { group } from "d3-array";
import type { Bottle } from "../cast/bottle.js";
import type { CellName } from "../cast/cast.js";
import type { CruiseCast } from "../cast/cruise.js";
import { isPressure } from "../cast/impossibleReadings.js";
import { type MaintenanceEvent, maintenanceActions, mostInAir_mS_cm } from "../cast/maintenance.js";
import { timedToTheMinute } from "../cast/minuteTimes.js";
import { quoted } from "./badInput.js";
import { checkUnits } from "./castUnits.js";
import { actionMend, readingInAirMend, timeMend } from "./mends.js";
import { timeCell } from "./timeCell.js";

/** Receives a fault: place, found, expected, correction. */
export type OnFault = (path: string, found: string, expected: string, mend: string) => void;

/** Number of closures for the check of units. */
const closuresJudged = 100;
/** Upper limit of natural water that a salinometer measures, PSS-78. */
const saltiest = 50;

/** A time as ISO 8601 UTC; unchanged and with a fault if it is not a time. */
export function checkedTime(path: string, time: string | undefined, fault: OnFault) {
  if (time === undefined) return undefined;
  const read = typeof time === "string" ? timeCell(time) : null;
  if (typeof read === "string") return read;
  fault(path, quoted(time), ...timeMend);
  return time;
}

/** @param known whether a cast is in the cruise's list */
export function checkBottle(
  bottle: Bottle,
  path: string,
  known: (id: string) => boolean,
  fault: OnFault,
): void {
  if (typeof bottle !== "object" || bottle === null) {
    fault(path, quoted(bottle), "a bottle", "Give an object with cast, pressure and salinity.");
    return;
  }
  const { cast, pressure_dbar, salinity, ctd, time_s } = bottle;
  if (!known(cast)) {
    const mend =
      "Put the cast in the cruise's list, as { id } where it has no data, or mend the id.";
    fault(`${path}.cast`, quoted(cast), "the id of a cast of the cruise", mend);
  }
  if (typeof pressure_dbar !== "number" || !isPressure(pressure_dbar)) {
    const mend = "Give the sea pressure in dbar, or leave the bottle out.";
    fault(`${path}.pressure_dbar`, quoted(pressure_dbar), "the pressure at closure", mend);
  }
  const salt = typeof salinity === "number" && !(salinity < 0 || salinity > saltiest);
  if (!salt) {
    const mend = "Correct the value; use NaN if none was drawn.";
    fault(`${path}.salinity`, quoted(salinity), `Practical Salinity, 0 to ${saltiest}`, mend);
  }
  if (time_s !== undefined && typeof time_s !== "number") {
    fault(`${path}.time_s`, quoted(time_s), "seconds since the start", "Give a number, or none.");
  }
  for (const reading of Object.values(ctd ?? {})) {
    const numbers = [reading?.temperature_C, reading?.conductivity_mS_cm];
    if (numbers.every((value) => typeof value === "number")) continue;
    const mend = "Give both as numbers, or leave the cell out.";
    fault(`${path}.ctd`, quoted(reading), "temperature_C and conductivity_mS_cm", mend);
  }
}

/** Odd CTD readings at closures; BadInput if they are in other units. */
export function closureDoubts(bottles: readonly Bottle[], cell: CellName): readonly string[] {
  const step = Math.max(1, Math.ceil(bottles.length / closuresJudged));
  const read = bottles.filter(({ ctd }, i) => i % step === 0 && ctd?.[cell] !== undefined);
  if (read.length === 0) return [];
  const readings = {
    pressure: read.map(({ pressure_dbar }) => pressure_dbar),
    temperature: read.map(({ ctd }) => ctd![cell]!.temperature_C),
    conductivity: read.map(({ ctd }) => ctd![cell]!.conductivity_mS_cm),
    unit: "mS/cm" as const,
    headings: {
      pressure: "bottles.pressure_dbar",
      temperature: `bottles.ctd.${cell}.temperature_C`,
      conductivity: `bottles.ctd.${cell}.conductivity_mS_cm`,
    },
  };
  return checkUnits(readings, "cruise", 0, closuresJudged);
}

/** A note if bottles are placed in the scans of their cast by pressure, because a minute is too coarse. */
export function minuteNotes(
  bottles: readonly Bottle[],
  hasScans: (cast: string) => boolean,
): readonly string[] {
  const placed = bottles.filter(({ cast, ctd }) => hasScans(cast) && ctd?.primary === undefined);
  const coarse = [...group(placed, ({ cast }) => cast).values()].flatMap(timedToTheMinute);
  return coarse.length === 0
    ? []
    : [
        `the closure times of ${coarse.length} bottles end on the whole minute: bottles of such casts are placed by pressure`,
      ];
}

export function checkEvent(event: MaintenanceEvent, path: string, fault: OnFault): void {
  const { action, time, afterCast, cell, minutes, reading_mS_cm } = event ?? {};
  if (!maintenanceActions.includes(action)) {
    fault(`${path}.action`, quoted(action), ...actionMend);
  }
  if (time === undefined && afterCast === undefined) {
    const mend = "Give `time` or `afterCast`.";
    fault(path, "neither time nor cast", "a time, or the cast it followed", mend);
  }
  if (cell !== undefined && cell !== "primary" && cell !== "secondary") {
    const mend = "Leave the cell out if it was done to both.";
    fault(`${path}.cell`, quoted(cell), "primary or secondary", mend);
  }
  if (minutes !== undefined && !(minutes >= 0)) {
    fault(`${path}.minutes`, quoted(minutes), "a number from 0 up", "Correct it, or leave it out.");
  }
  if (reading_mS_cm !== undefined && !(Math.abs(reading_mS_cm) <= mostInAir_mS_cm)) {
    fault(`${path}.reading_mS_cm`, quoted(reading_mS_cm), ...readingInAirMend);
  }
}

export function checkPlace(
  { latitude, longitude }: CruiseCast,
  path: string,
  fault: OnFault,
): void {
  const within = (value: number | undefined, least: number, most: number) =>
    value === undefined || (value >= least && value <= most);
  if (!within(latitude, -90, 90)) {
    fault(
      `${path}.latitude`,
      quoted(latitude),
      "degrees north, -90 to 90",
      "Correct it, or leave it out.",
    );
  }
  if (!within(longitude, -180, 360)) {
    fault(
      `${path}.longitude`,
      quoted(longitude),
      "degrees east, -180 to 360",
      "Correct it, or leave it out.",
    );
  }
}
