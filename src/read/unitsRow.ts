// A row of units below the headings, as servers of open data write it: the units of the used columns, and the place and
// time of the cast.
import { BadInput, type Fault } from "./badInput.js";
import type { CastColumnName } from "./castColumnNames.js";
import { numberCell } from "./numberCell.js";
import {
  type Conversion,
  conductivityFrom,
  durationFrom,
  pressureFrom,
  salinityFrom,
  temperatureFrom,
} from "./quantityUnits.js";
import { timeCell } from "./timeCell.js";

/** Headings that are standard names [CFStandardNames2023], and our column for each. */
export const standardHeadings: Readonly<Partial<Record<CastColumnName, string>>> = {
  pressure_dbar: "sea_water_pressure",
  temperature_C: "sea_water_temperature",
  conductivity_mS_cm: "sea_water_electrical_conductivity",
  salinity: "sea_water_practical_salinity",
};

/** Conversion to the unit of our column; undefined if its unit is unknown. */
function conversionTo(name: CastColumnName, unit: string): Conversion | undefined {
  if (name === "time_s") return durationFrom(unit.toLowerCase().replace(/\s+since\s.*$/, ""));
  if (name.startsWith("pressure")) return pressureFrom(unit);
  if (name.startsWith("temperature")) return temperatureFrom(unit);
  if (name.startsWith("salinity")) return salinityFrom(unit);
  if (!name.startsWith("conductivity")) return undefined;
  const made = conductivityFrom(unit);
  return made === undefined || name.endsWith("mS_cm")
    ? made
    : { factor: made.factor / 10, offset: 0 };
}

/**
 * @param line of the headings
 * @returns for each of our columns, the conversion from the file's unit; and notes
 * @throws BadInput if one of our headings and its unit contradict each other, or a standard name has no known unit
 */
export function unitsOfColumns(
  places: Readonly<Partial<Record<CastColumnName, number>>>,
  headings: readonly string[],
  units: readonly string[],
  file: string,
  line: number,
): {
  readonly conversions: Readonly<Partial<Record<CastColumnName, Conversion>>>;
  readonly notes: readonly string[];
} {
  const conversions: Partial<Record<CastColumnName, Conversion>> = {};
  const notes: string[] = [];
  const faults: Fault[] = [];
  for (const [key, place] of Object.entries(places)) {
    const name = key as CastColumnName;
    const column = headings[place]!;
    const below = (units[place] ?? "").replace(/^\((.*)\)$|^\[(.*)\]$/, "$1$2").trim();
    // Clocks have many units, so that of a mapped heading counts too: "elapsed [days]".
    const within = name === "time_s" ? (/[([]([^()[\]]+)[)\]]$/.exec(column)?.[1] ?? "") : "";
    const unit = below === "" ? within.trim() : below;
    const conversion = conversionTo(name, unit);
    const found = unit === "" ? "no unit below it" : `the unit ${JSON.stringify(unit)} below it`;
    if (conversion === undefined) {
      if (column !== standardHeadings[name]) continue;
      const mend = "Write the unit as UDUNITS spells it: dbar, degree_C, S m-1.";
      faults.push({ file, line, column, found, expected: "a unit that is known", mend });
    } else if (conversion.factor !== 1 || conversion.offset !== 0) {
      if (column === name) {
        const mend = "Correct the heading or the unit, whichever is wrong.";
        const expected = "the unit that the heading names";
        faults.push({ file, line, column, found, expected, mend });
      } else {
        conversions[name] = conversion;
        const where = below === "" ? "heading" : "line of units";
        notes.push(`${column} was converted from ${unit}, as the ${where} says`);
      }
    }
  }
  if (faults.length > 0) throw new BadInput(faults);
  return { conversions, notes };
}

export interface RowPlaces {
  readonly latitude: number;
  readonly longitude: number;
}

/** Columns of the position in each row; undefined if the units do not show them. */
export function rowPlacesOf(
  headings: readonly string[],
  units: readonly string[],
): RowPlaces | undefined {
  const latitude = headings.findIndex(
    (heading, k) => /^lat(itude)?$/i.test(heading) && /^degrees?_?n(orth)?$/i.test(units[k] ?? ""),
  );
  const longitude = headings.findIndex(
    (heading, k) => /^lon(gitude)?$/i.test(heading) && /^degrees?_?e(ast)?$/i.test(units[k] ?? ""),
  );
  return latitude < 0 || longitude < 0 ? undefined : { latitude, longitude };
}

/** Facts about the cast from the first row: its time, if the units say UTC, and its position. */
export function stationOf(
  headings: readonly string[],
  units: readonly string[],
  row: readonly string[],
): { readonly start?: string; readonly latitude?: number; readonly longitude?: number } {
  const at = headings.findIndex((heading, k) => /^time$/i.test(heading) && units[k] === "UTC");
  const start = timeCell(row[at]);
  const places = rowPlacesOf(headings, units);
  const [latitude, longitude] = [places?.latitude, places?.longitude].map((place) =>
    place === undefined ? undefined : numberCell(row[place]),
  );
  const known = (value: number | undefined) => value !== undefined && !Number.isNaN(value);
  return {
    ...(typeof start === "string" ? { start } : {}),
    ...(known(latitude) && known(longitude) ? { latitude: latitude!, longitude: longitude! } : {}),
  };
}

/** A package drifts less than this while it is lowered, degrees (judgement: about 5 km). */
const farthest = 0.05;

/** @throws BadInput if rows are from several places, and so from several casts */
export function refuseSeveralPlaces(
  latitude: Float64Array,
  longitude: Float64Array,
  file: string,
  line: number,
): void {
  const spread = (values: Float64Array) => {
    let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const value of values) {
      if (value < least) least = value;
      if (value > most) most = value;
    }
    return most - least;
  };
  const moved = Math.max(spread(latitude), spread(longitude));
  if (!(moved > farthest)) return;
  throw new BadInput([
    {
      file,
      line,
      column: "latitude, longitude",
      found: `positions up to ${moved.toFixed(2)} degrees apart`,
      expected: "one cast in one file",
      mend: "Ask the server for one profile at a time, or split the file.",
    },
  ]);
}
