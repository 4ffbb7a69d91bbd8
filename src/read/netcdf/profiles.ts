// The elements of a file's variables that form each profile, for each kind of discrete sampling geometry
// [CFConventions2023], chapter 9 and appendix H.3.
import { BadInput } from "../badInput.js";
import { type NetcdfFile, type NetcdfVariable, textOf } from "./netcdfFile.js";
import { contiguous, indexed, mostProfiles, type ProfileFault, tooMany } from "./ragged.js";
import { unpacked } from "./values.js";

export interface Geometry {
  /** Text for a person. */
  readonly kind: string;
  readonly sampleDimension: string;
  /** Absent if the file has one profile. */
  readonly instanceDimension?: string;
  /** Whether short profiles are padded to the length of the longest. */
  readonly isFilledUp: boolean;
  /** For each profile, its elements along the sample dimension. */
  readonly scans: readonly Int32Array[];
}

/** @param temperature a variable with a value for each scan; all profiles may share `pressure` */
export function geometryOf(
  { variables }: NetcdfFile,
  temperature: NetcdfVariable,
  pressure: NetcdfVariable,
  file: string,
): Geometry {
  const fault = (variable: NetcdfVariable, wrong: ProfileFault) =>
    new BadInput([{ file, line: 0, column: variable.name, ...wrong }]);
  const lengthOf = (dimension: string) =>
    temperature.shape[temperature.dimensions.indexOf(dimension)]!;
  const dimensions = withoutOnes(temperature);
  const [first, second, more] = dimensions;
  if (first === undefined || more !== undefined) {
    throw fault(temperature, {
      found: `the dimensions ${temperature.dimensions.join(", ") || "none"}`,
      expected: "scans, or profiles and scans",
      mend: "Write the profiles as CF describes discrete sampling geometries, chapter 9.",
    });
  }
  if (second === undefined) {
    const rows = variables.find((v) => textOf(v, "sample_dimension") === first);
    if (rows !== undefined) {
      const scans = contiguous(unpacked(rows), lengthOf(first));
      if (!Array.isArray(scans)) throw fault(rows, scans);
      return {
        kind: "a contiguous ragged array",
        isFilledUp: false,
        sampleDimension: first,
        instanceDimension: rows.dimensions[0] ?? "",
        scans,
      };
    }
    const index = variables.find(
      (v) => textOf(v, "instance_dimension") !== undefined && v.dimensions[0] === first,
    );
    if (index !== undefined) {
      const instance = textOf(index, "instance_dimension")!;
      const count = sizeOf(variables, instance);
      const scans = indexed(unpacked(index), count);
      if (!Array.isArray(scans)) throw fault(index, scans);
      return {
        kind: "an indexed ragged array",
        isFilledUp: false,
        sampleDimension: first,
        instanceDimension: instance,
        scans,
      };
    }
    const place = variables.find(
      (v) =>
        /^(latitude|longitude)$/.test(textOf(v, "standard_name") ?? "") &&
        v.dimensions.length === 1 &&
        v.dimensions[0] !== first &&
        v.shape[0]! > 1,
    );
    if (place !== undefined) {
      throw fault(temperature, {
        found: `one list of scans beside ${place.shape[0]} positions`,
        expected: "a variable that says which scans are of which profile",
        mend: "Add one with the attribute sample_dimension or instance_dimension, as CF describes ragged arrays.",
      });
    }
    return {
      kind: "one profile",
      isFilledUp: false,
      sampleDimension: first,
      scans: [whole(lengthOf(first))],
    };
  }
  const shared = withoutOnes(pressure);
  const sample =
    shared.length === 1 && dimensions.includes(shared[0]!)
      ? shared[0]!
      : isInstance(variables, second) && !isInstance(variables, first)
        ? first
        : second;
  const instance = sample === second ? first : second;
  const kind = `an ${shared.length === 1 ? "orthogonal" : "incomplete"} multidimensional array`;
  if (lengthOf(instance) > mostProfiles) throw fault(temperature, tooMany(lengthOf(instance)));
  const scans = Array.from({ length: lengthOf(instance) }, () => whole(lengthOf(sample)));
  return { kind, isFilledUp: true, sampleDimension: sample, instanceDimension: instance, scans };
}

/** Dimensions without those of length 1, while there are more than two. */
function withoutOnes({ dimensions, shape }: NetcdfVariable): readonly string[] {
  if (dimensions.length <= 2) return dimensions;
  const long = dimensions.filter((_, k) => shape[k] !== 1);
  return long.length > 0 ? long : dimensions.slice(-1);
}

/** Whether positions or names of profiles use a dimension. */
function isInstance(variables: readonly NetcdfVariable[], dimension: string): boolean {
  return variables.some(
    (variable) =>
      variable.dimensions[0] === dimension &&
      (textOf(variable, "cf_role") === "profile_id" ||
        (variable.dimensions.length === 1 &&
          /^(latitude|longitude)$/.test(textOf(variable, "standard_name") ?? ""))),
  );
}

function sizeOf(variables: readonly NetcdfVariable[], dimension: string): number | undefined {
  const own = variables.find(({ dimensions }) => dimensions.includes(dimension));
  return own?.shape[own.dimensions.indexOf(dimension)];
}

function whole(length: number): Int32Array {
  return Int32Array.from({ length }, (_, k) => k);
}
