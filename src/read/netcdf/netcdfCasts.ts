// The casts of a NetCDF file: profiles as CF describes discrete sampling geometries, one or many in a file.
import type { Cast } from "../../cast/cast.js";
import { BadInput } from "../badInput.js";
import type { CastFacts, ReadCast } from "../castBuilder.js";
import type { CastColumnName, CastMapping } from "../castColumnNames.js";
import { castColumns } from "../castColumns.js";
import { present } from "../present.js";
import { elementOf } from "./elements.js";
import { flagsOf } from "./flags.js";
import { type NetcdfFile, type NetcdfVariable, textOf } from "./netcdfFile.js";
import { idsOf } from "./profileIds.js";
import { type Geometry, geometryOf } from "./profiles.js";
import { type NetcdfSensor, sensorsOf } from "./sensors.js";
import { placeOf } from "./stations.js";
import { unpacked } from "./values.js";

export interface NetcdfCasts {
  /** Id of each profile, from its profile_id; undefined if the file has one profile without a name. */
  readonly ids: readonly (string | undefined)[];
  /** Whether no scan of a profile has a temperature: the station was not taken. */
  readonly isEmpty: (profile: number) => boolean;
  /** @throws BadInput if there are no scans, or if the columns cannot be those of a cast */
  readonly read: (profile: number, facts: CastFacts) => ReadCast;
}

/**
 * @param file    as from a reader of one of the disk formats
 * @param mapping from our column names to names of variables
 * @param name    of the file, for messages
 * @throws BadInput with the variable, the found and the expected text
 */
export function netcdfCasts(file: NetcdfFile, mapping: CastMapping, name: string): NetcdfCasts {
  const notes: string[] = [];
  const type = textOf(file, "featureType");
  if (type === undefined)
    notes.push("the file does not say its featureType: it was taken for profiles");
  else if (type.toLowerCase() !== "profile") throw new BadInput([otherType(type, name)]);
  const { sensors, notes: told } = sensorsOf(file, mapping, name);
  const [pressure, temperature] = ["pressure_dbar", "temperature_C"].map(
    (column) => sensors.find((sensor) => sensor.column === column)!.variable,
  );
  const values = remembered(unpacked);
  // Read first, because a broken header may claim more data than exist.
  for (const { variable } of sensors) values(variable);
  const geometry = geometryOf(file, temperature!, pressure!, name);
  notes.push(...told);
  if (sensors.some(({ variable }) => textOf(variable, "standard_name") === "sea_water_pressure")) {
    notes.push(`${pressure!.name} was taken for sea pressure, 0 at the surface`);
  }
  const ids = idsOf(file, geometry, name);
  return {
    ids,
    isEmpty(profile) {
      const at = elementOf(temperature!, geometry, profile);
      const all = values(temperature!);
      return !geometry.scans[profile]!.some((scan) => !Number.isNaN(all[at(scan)]!));
    },
    read(profile, facts) {
      const { id, sampleRate_Hz } = facts;
      const {
        columns: raw,
        rows,
        barred,
      } = columnsOf(file, geometry, sensors, profile, values, notes);
      if (rows === 0) throw new BadInput([noScans(name, profile)]);
      const place = placeOf(file, geometry, profile, rows, values, name);
      const time = place.time_s;
      const heading = new Map<string, string>(sensors.map((s) => [s.column, s.variable.name]));
      const found = castColumns(
        {
          column: (column) => (column === "time_s" ? time : raw.get(column)),
          heading: (column) => heading.get(column) ?? column,
          places: Object.fromEntries(sensors.map(({ column }, k) => [column, k])),
          others: {},
        },
        { file: name, temperatureScale: facts.temperatureScale ?? scaleOf(temperature!) },
        0,
      );
      return {
        cast: present<Cast>({
          id,
          start: facts.start ?? place.start,
          latitude: facts.latitude ?? place.latitude,
          longitude: facts.longitude ?? place.longitude,
          sampleRate_Hz,
          conductivityFrom: raw.has("salinity") ? "salinity" : "measured",
          columns: found.columns,
        }),
        input: {
          name,
          role: "cast",
          ...(ids.length === 1 ? {} : { part: ids[profile]! }),
          rows,
          leftOut: [],
          notes: [
            `NetCDF, ${geometry.kind}`,
            ...new Set(notes),
            ...(barred === 0
              ? []
              : [`${barred} values flagged questionable or bad were taken as missing`]),
            ...found.notes,
          ],
        },
      };
    },
  };
}

/** The columns of a profile in our units, without the empty elements after its last scan. */
function columnsOf(
  file: NetcdfFile,
  geometry: Geometry,
  sensors: readonly NetcdfSensor[],
  profile: number,
  values: (variable: NetcdfVariable) => Float64Array,
  notes: string[],
) {
  const scans = geometry.scans[profile]!;
  let barred = 0;
  const columns = sensors.map(({ variable, conversion }) => {
    const at = elementOf(variable, geometry, profile);
    const all = values(variable);
    const column = Float64Array.from(
      scans,
      (scan) => all[at(scan)]! * conversion.factor + conversion.offset,
    );
    for (const { variable: flags, bars } of flagsOf(file, variable, (text) => notes.push(text))) {
      const flag = values(flags);
      const flagAt = elementOf(flags, geometry, profile);
      scans.forEach((scan, k) => {
        if (Number.isNaN(column[k]!) || !bars(flag[flagAt(scan)]!)) return;
        column[k] = Number.NaN;
        barred++;
      });
    }
    return column;
  });
  let rows = scans.length;
  // Short profiles are padded after their last scan; all profiles may share the pressure.
  const own = columns.filter((_, k) => sensors[k]!.column !== "pressure_dbar");
  while (
    geometry.isFilledUp &&
    rows > 0 &&
    own.every((column) => Number.isNaN(column[rows - 1]!))
  ) {
    rows--;
  }
  const byName = new Map<CastColumnName, Float64Array>(
    sensors.map(({ column }, k) => [column, columns[k]!.slice(0, rows)]),
  );
  return { columns: byName, rows, barred };
}

function scaleOf(temperature: NetcdfVariable): "ITS-90" | "IPTS-68" {
  const said = ["reference_scale", "scale", "temperature_scale"].map((key) =>
    textOf(temperature, key),
  );
  return said.some((text) => /68/.test(text ?? "")) ? "IPTS-68" : "ITS-90";
}

function remembered<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    const value = known.get(key) ?? make(key);
    known.set(key, value);
    return value;
  };
}

function otherType(type: string, file: string) {
  return {
    file,
    line: 0,
    column: "featureType",
    found: JSON.stringify(type.slice(0, 60)),
    expected: "profile",
    mend: "Write each cast as a profile.",
  };
}

function noScans(file: string, profile: number) {
  return {
    file,
    line: 0,
    found: `no scan in profile ${profile + 1}`,
    expected: "a profile with scans",
    mend: "Take the profile out of the cruise, or check that the file was written to its end.",
  };
}
