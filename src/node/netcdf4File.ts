// NetCDF-4, which is HDF5, read by h5wasm: an optional package of 14 MB, loaded only for such a file.
import { BadInput } from "../read/badInput.js";
import type { NetcdfAttribute, NetcdfFile, NetcdfVariable } from "../read/netcdf/netcdfFile.js";

type H5wasm = typeof import("h5wasm/node");
type Dataset = InstanceType<H5wasm["Dataset"]>;

/**
 * Upper limit of the elements of one variable (judgement: beyond the longest cruise), because a broken header may claim any
 * number.
 */
const mostElements = 200_000_000;
/** NC_FILL of each type: netCDF-4 fills elements that were never written with it. */
const usualFills: Readonly<Record<string, number>> = {
  h: -32767,
  i: -2147483647,
  f: Math.fround(9.969209968386869e36),
  d: 9.969209968386869e36,
};

/**
 * All variables of the root group, read into memory.
 * @throws BadInput if h5wasm is not installed, or the file cannot be read
 */
export async function netcdf4File(path: string, name: string): Promise<NetcdfFile> {
  const { File, Dataset, ready } = await library(name);
  const module = await ready;
  // Otherwise its messages go to the terminal, and a broken file looks empty.
  module.activate_throwing_error_handler();
  try {
    const file = new File(path, "r");
    try {
      const datasets = file.keys().flatMap((key) => {
        const entity = file.get(key);
        return entity instanceof Dataset ? [entity] : [];
      });
      return {
        attributes: attributesOf(file),
        variables: datasets
          .filter((set) => !isBareDimension(set))
          .map((set) => variableOf(set, name)),
      };
    } finally {
      file.close();
    }
  } catch (error) {
    throw error instanceof BadInput ? error : new BadInput([broken(name)]);
  } finally {
    module.deactivate_throwing_error_handler();
  }
}

async function library(file: string): Promise<H5wasm> {
  try {
    return await import("h5wasm/node");
  } catch {
    throw new BadInput([
      {
        file,
        line: 0,
        found: "a NetCDF-4 file, which is HDF5",
        expected: "the package h5wasm, which reads it, to be installed",
        mend: "Install it with npm install h5wasm, or write the file again as NetCDF classic.",
      },
    ]);
  }
}

function variableOf(set: Dataset, file: string): NetcdfVariable {
  const name = set.path.replace(/^\//, "");
  const shape = set.shape ?? [];
  const count = shape.reduce((product, length) => product * length, 1);
  if (count > mostElements) {
    throw new BadInput([
      { ...broken(file), column: name, found: `a variable of ${count} elements` },
    ]);
  }
  const type = typeof set.dtype === "string" ? set.dtype : "";
  const letter = type.at(-1) ?? "";
  const fill = usualFills[letter];
  const scales = shape.map((_, k) => set.get_attached_scales(k)[0]);
  const isScale = set.get_scale_name() !== null;
  const attributes = attributesOf(set);
  let values: Float64Array | readonly string[] | undefined;
  // Read while the file is open; only variables that can be a column, a flag, a time, a position or a name.
  if (/^[<>|]?[bBhHiIqQfd]$/.test(type) || /^S|^A/.test(type)) values = valuesOf(set, count);
  return {
    name,
    dimensions: shape.map(
      (_, k) => scales[k]?.replace(/^\//, "") ?? (isScale && k === 0 ? name : `${name}.${k}`),
    ),
    shape,
    attributes,
    isInteger: /[bBhHiIqQ]$/.test(type),
    ...(fill === undefined ? {} : { usualFill: fill }),
    read: () => values ?? new Float64Array(count).fill(Number.NaN),
  };
}

function valuesOf(set: Dataset, count: number): Float64Array | readonly string[] {
  const value: unknown = set.value;
  const list = ArrayBuffer.isView(value) || Array.isArray(value) ? value : [value];
  const items = Array.from(list as ArrayLike<unknown>);
  if (items.some((item) => typeof item === "string"))
    return items.map((item) => String(item ?? ""));
  if (items.length !== count) return new Float64Array(count).fill(Number.NaN);
  return Float64Array.from(items, Number);
}

/** A dimension without a variable is a data set with a mark. */
function isBareDimension(set: Dataset): boolean {
  return /^This is a netCDF dimension but not a netCDF variable/.test(set.get_scale_name() ?? "");
}

/** Data types of HDF5 itself, for references, are not needed. */
const inner = /^(CLASS|NAME|DIMENSION_LIST|REFERENCE_LIST|_Netcdf4\w*|_NCProperties|_nc3_strict)$/;

function attributesOf(of: Pick<Dataset, "attrs">): ReadonlyMap<string, NetcdfAttribute> {
  return new Map(
    Object.entries(of.attrs).flatMap(([name, attribute]): [string, NetcdfAttribute][] => {
      if (inner.test(name)) return [];
      const { value, dtype } = attribute;
      const items = Array.from(
        (ArrayBuffer.isView(value) || Array.isArray(value) ? value : [value]) as ArrayLike<unknown>,
      );
      if (items.some((item) => typeof item === "string")) {
        return [[name, { value: items.join(" ").replace(/\0+$/, ""), isInteger: false }]];
      }
      if (!items.every((item) => typeof item === "number" || typeof item === "bigint")) return [];
      return [[name, { value: items.map(Number), isInteger: /[bBhHiIqQ]$/.test(String(dtype)) }]];
    }),
  );
}

function broken(file: string) {
  return {
    file,
    line: 0,
    found: "a NetCDF-4 file that cannot be read",
    expected: "a whole NetCDF-4 file",
    mend: "Check that the file was written and copied to its end.",
  };
}
