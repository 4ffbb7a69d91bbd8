// Times in CF form: a number of units since a reference time [CFConventions2023], section 4.4.
import { durationFrom } from "../quantityUnits.js";
import { timeCell } from "../timeCell.js";

/** The change-over day of the mixed calendar: earlier days follow another calendar. */
const gregorianFrom = Date.UTC(1582, 9, 15);

/** From a number in the file to seconds since 1970, UTC. */
export interface Clock {
  readonly step_s: number;
  readonly begin_s: number;
}

/** @returns the clock; a text with the expected form if the units or the calendar are unknown */
export function clockOf(units: string, calendar: string | undefined): Clock | string {
  const [, unit, moment] = /^(\S+)\s+since\s+(.+)$/i.exec(units) ?? [];
  const step = durationFrom((unit ?? "").toLowerCase())?.factor;
  if (step === undefined || moment === undefined) {
    return "days, hours, minutes or seconds since a time";
  }
  const named = (calendar ?? "standard").toLowerCase();
  if (!["standard", "gregorian", "proleptic_gregorian"].includes(named)) {
    return "the calendar standard, gregorian or proleptic_gregorian";
  }
  const begin = momentOf(moment);
  if (begin === undefined) return "units since a time such as 1970-01-01 00:00:00, in UTC";
  if (begin < gregorianFrom && named !== "proleptic_gregorian") {
    return "a time since 1582-10-15, when the calendar turned, or the calendar proleptic_gregorian";
  }
  return { step_s: step, begin_s: begin / 1000 };
}

/** UDUNITS allows leading zeros, the time of day and the zone to be omitted. */
function momentOf(text: string): number | undefined {
  const parts =
    /^(\d{1,4})-(\d{1,2})-(\d{1,2})(?:(?:T|\s+)(\d{1,2})(?::(\d{1,2})(?::(\d{1,2})(?:\.(\d+))?)?)?)?\s*(Z|UTC|GMT|[+-]\d{1,2}(?::?\d{2})?)?$/i.exec(
      text.trim(),
    );
  if (parts === null) return undefined;
  const [, year, month, day, hour = "0", minute = "0", second = "0", part = "0", zone = "Z"] =
    parts;
  const two = (digits: string) => digits.padStart(2, "0");
  const named = /^(Z|UTC|GMT)$/i.test(zone) ? "Z" : zoneOf(zone);
  const iso = `${year!.padStart(4, "0")}-${two(month!)}-${two(day!)}T${two(hour)}:${two(minute)}:${two(second)}.${part.slice(0, 3).padEnd(3, "0")}${named}`;
  const time = timeCell(iso);
  return typeof time === "string" ? Date.parse(time) : undefined;
}

function zoneOf(zone: string): string {
  const [, sign, hours, minutes = "00"] = /^([+-])(\d{1,2}):?(\d{2})?$/.exec(zone)!;
  return `${sign}${hours!.padStart(2, "0")}:${minutes}`;
}
