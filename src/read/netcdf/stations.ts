// Time and position of a profile, and the time of each of its scans.
import { BadInput } from "../badInput.js";
import { elementOf } from "./elements.js";
import { type NetcdfFile, type NetcdfVariable, textOf } from "./netcdfFile.js";
import type { Geometry } from "./profiles.js";
import { type Clock, clockOf } from "./times.js";

export interface TimeAndPosition {
  /** ISO 8601 UTC. */
  readonly start?: string;
  /** Degrees north and east. */
  readonly latitude?: number;
  readonly longitude?: number;
  /** Seconds since the first scan that has a time. */
  readonly time_s?: Float64Array;
}

/**
 * @param rows scans of the profile to use
 * @throws BadInput if the units or the calendar of a time are unknown
 */
export function placeOf(
  { variables }: NetcdfFile,
  geometry: Geometry,
  profile: number,
  rows: number,
  values: (variable: NetcdfVariable) => Float64Array,
  file: string,
): TimeAndPosition {
  const named = (name: string) => variables.filter((v) => textOf(v, "standard_name") === name);
  const scans = geometry.scans[profile]!.subarray(0, rows);
  const column = (variable: NetcdfVariable) => {
    const all = values(variable);
    const at = elementOf(variable, geometry, profile);
    return Float64Array.from(scans, (scan) => all[at(scan)] ?? Number.NaN);
  };
  const first = (variable: NetcdfVariable | undefined) =>
    variable === undefined ? undefined : column(variable).find(Number.isFinite);
  const isOfScans = ({ dimensions }: NetcdfVariable) =>
    dimensions.includes(geometry.sampleDimension);
  const times = named("time");
  const ofProfile = times.find((variable) => !isOfScans(variable));
  const ofScans = times.find(isOfScans);
  const begun = moment(ofProfile, first(ofProfile), file);
  const place = { latitude: first(named("latitude")[0]), longitude: first(named("longitude")[0]) };
  if (ofScans === undefined) return whole({ start: begun, ...place });
  const clock = clockIn(ofScans, file);
  const seconds = column(ofScans).map((value) => value * clock.step_s);
  const from = seconds.find(Number.isFinite);
  if (from === undefined) return whole({ start: begun, ...place });
  return whole({
    start: begun ?? iso(clock.begin_s + from, ofScans, file),
    ...place,
    time_s: seconds.map((value) => value - from),
  });
}

function whole(
  place: { readonly [K in keyof TimeAndPosition]: TimeAndPosition[K] | undefined },
): TimeAndPosition {
  return Object.fromEntries(Object.entries(place).filter(([, value]) => value !== undefined));
}

function moment(
  variable: NetcdfVariable | undefined,
  value: number | undefined,
  file: string,
): string | undefined {
  if (variable === undefined || value === undefined) return undefined;
  const clock = clockIn(variable, file);
  return iso(clock.begin_s + value * clock.step_s, variable, file);
}

/** @throws BadInput for a time at which no cast can have been taken */
function iso(seconds: number, variable: NetcdfVariable, file: string): string {
  const date = new Date(Math.round(1000 * seconds));
  const year = date.getUTCFullYear();
  if (year >= 1800 && year < 2200) return date.toISOString();
  throw new BadInput([
    {
      file,
      line: 0,
      column: variable.name,
      found: Number.isNaN(year) ? `${seconds} seconds from 1970` : `a time in the year ${year}`,
      expected: "the time of a cast",
      mend: "Check the values and the units of the variable.",
    },
  ]);
}

function clockIn(variable: NetcdfVariable, file: string): Clock {
  const units = textOf(variable, "units") ?? "";
  const clock = clockOf(units, textOf(variable, "calendar"));
  if (typeof clock !== "string") return clock;
  const calendar = textOf(variable, "calendar");
  throw new BadInput([
    {
      file,
      line: 0,
      column: variable.name,
      found: `${JSON.stringify(units.slice(0, 80))}${calendar === undefined ? "" : `, calendar ${calendar.slice(0, 40)}`}`,
      expected: clock,
      mend: "Write the time as CF describes it. Or take its standard_name out and give the cast its start in cruise.json.",
    },
  ]);
}
