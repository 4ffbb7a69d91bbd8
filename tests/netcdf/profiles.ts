// Three invented profiles of unequal length, written in each of the ways that CF has for profiles: the layouts and names
// are those of the conventions' own examples [CFConventions2023], appendix H.3, from memory.
import type { ClassicContent, ClassicVariable } from "./writeClassic.js";

const lengths = [5, 3, 4];
export const invented = lengths.map((length, i) => {
  const of = (value: (k: number) => number) => Array.from({ length }, (_, k) => value(k));
  return {
    id: ["T-001", "T-002", "T-003"][i]!,
    pressure: of((k) => 10 + 100 * k),
    temperature: of((k) => 12 - k - i / 8),
    conductivity: of((k) => 4 - k / 16 - i / 64),
    /** Days since 2031-05-04T00:00:00Z. */
    day: 0.25 * (i + 1),
    latitude: -31.5 - i,
    longitude: 12.25 + i,
  };
});
export const fill = -9999;

type Name = "pressure" | "temperature" | "conductivity";
const attributes = {
  pressure: { standard_name: "sea_water_pressure", units: "dbar" },
  temperature: { standard_name: "sea_water_temperature", units: "degree_C" },
  conductivity: { standard_name: "sea_water_electrical_conductivity", units: "S m-1" },
} as const;
const reading = (name: Name, dimensions: readonly string[], data: readonly number[]) =>
  ({
    name,
    dimensions,
    type: "double",
    data,
    attributes: { ...attributes[name], _FillValue: { type: "double", values: [fill] } },
  }) satisfies ClassicVariable;
const ofProfile = (
  name: string,
  data: readonly number[],
  standard_name: string,
  units: string,
): ClassicVariable => ({
  name,
  dimensions: ["profile"],
  type: "double",
  data,
  attributes: { standard_name, units },
});
const stations: readonly ClassicVariable[] = [
  {
    name: "profile",
    dimensions: ["profile", "strlen"],
    type: "char",
    data: invented.map(({ id }) => id.padEnd(8, "\0")).join(""),
    attributes: { cf_role: "profile_id" },
  },
  ofProfile(
    "time",
    invented.map(({ day }) => day),
    "time",
    "days since 2031-05-04 00:00:00",
  ),
  ofProfile(
    "lat",
    invented.map((p) => p.latitude),
    "latitude",
    "degrees_north",
  ),
  ofProfile(
    "lon",
    invented.map((p) => p.longitude),
    "longitude",
    "degrees_east",
  ),
];
const readings: readonly Name[] = ["pressure", "temperature", "conductivity"];
const all = (name: Name) => invented.flatMap((profile) => profile[name]);
const scans = lengths.reduce((sum, length) => sum + length, 0);
const featureType = { featureType: "profile", Conventions: "CF-1.11" };

export const contiguous: ClassicContent = {
  dimensions: { obs: scans, profile: 3, strlen: 8 },
  attributes: featureType,
  variables: [
    ...stations,
    {
      name: "rowSize",
      dimensions: ["profile"],
      type: "int",
      data: lengths,
      attributes: { long_name: "number of obs for this profile", sample_dimension: "obs" },
    },
    ...readings.map((name) => reading(name, ["obs"], all(name))),
  ],
};

/** Scans of the profiles mixed: the first of each, the second of each and so on. */
const mixed = Array.from({ length: 5 }, (_, k) => [0, 1, 2].map((i) => ({ i, k })))
  .flat()
  .filter(({ i, k }) => k < lengths[i]!);
export const indexed: ClassicContent = {
  dimensions: { obs: scans, profile: 3, strlen: 8 },
  record: "obs",
  attributes: featureType,
  variables: [
    ...stations,
    {
      name: "profileIndex",
      dimensions: ["obs"],
      type: "int",
      data: mixed.map(({ i }) => i),
      attributes: { instance_dimension: "profile" },
    },
    ...readings.map((name) =>
      reading(
        name,
        ["obs"],
        mixed.map(({ i, k }) => invented[i]![name][k]!),
      ),
    ),
  ],
};

const filled = (name: Name) =>
  invented.flatMap((profile) => Array.from({ length: 5 }, (_, k) => profile[name][k] ?? fill));
export const incomplete: ClassicContent = {
  dimensions: { profile: 3, z: 5, strlen: 8 },
  attributes: featureType,
  variables: [
    ...stations,
    ...readings.map((name) => reading(name, ["profile", "z"], filled(name))),
  ],
};

/** One list of pressures for all profiles: these have the same ones as far as they go. */
export const orthogonal: ClassicContent = {
  ...incomplete,
  variables: [
    ...stations,
    reading("pressure", ["z"], invented[0]!.pressure),
    reading("temperature", ["profile", "z"], filled("temperature")),
    reading("conductivity", ["profile", "z"], filled("conductivity")),
  ],
};

/** The first of them alone, its place as scalars. */
export const single: ClassicContent = {
  dimensions: { z: 5, strlen: 8 },
  attributes: featureType,
  variables: [
    ...stations.map((variable) =>
      variable.type === "char"
        ? { ...variable, dimensions: ["strlen"], data: invented[0]!.id.padEnd(8, "\0") }
        : { ...variable, dimensions: [], data: [(variable.data as readonly number[])[0]!] },
    ),
    ...readings.map((name) => reading(name, ["z"], invented[0]![name])),
  ],
};

/** The single profile with its variables changed. */
export function singleWith(
  change: (variable: ClassicVariable) => ClassicVariable | readonly ClassicVariable[],
  more: Partial<ClassicContent> = {},
): ClassicContent {
  return { ...single, ...more, variables: single.variables.flatMap(change) };
}
