// The content of a classic file written as NetCDF-4, by h5wasm: dimension scales and their references, as that form has
// them.
import * as h5wasm from "h5wasm/node";
import type { ClassicContent, ClassicType, ClassicValue } from "./writeClassic.js";

const arrays = {
  byte: Int8Array,
  short: Int16Array,
  int: Int32Array,
  float: Float32Array,
  double: Float64Array,
} as const satisfies Partial<Record<ClassicType, unknown>>;

export async function writeNetcdf4(path: string, content: ClassicContent): Promise<void> {
  await h5wasm.ready;
  const file = new h5wasm.File(path, "w");
  const attributes = (
    of: Pick<h5wasm.Group, "create_attribute">,
    all: Readonly<Record<string, ClassicValue>> = {},
  ) => {
    for (const [name, value] of Object.entries(all)) {
      if (typeof value === "string") of.create_attribute(name, value);
      else if (value.type !== "char") {
        of.create_attribute(name, Reflect.construct(arrays[value.type], [value.values]));
      }
    }
  };
  attributes(file, content.attributes);
  const own = new Set(content.variables.map(({ name }) => name));
  for (const [name, length] of Object.entries(content.dimensions)) {
    if (own.has(name)) continue;
    const set = file.create_dataset({ name, data: new Float32Array(length), shape: [length] });
    set.make_scale(
      `This is a netCDF dimension but not a netCDF variable.${String(length).padStart(10)}`,
    );
  }
  for (const variable of content.variables) {
    const { name, type, dimensions, data } = variable;
    const shape = dimensions.map((dimension) => content.dimensions[dimension]!);
    if (typeof data === "string" || type === "char") {
      const set = file.create_dataset({ name, data: [...String(data)], shape, dtype: "S1" });
      if (dimensions[0] === name) set.make_scale(name);
    } else {
      const values = Reflect.construct(arrays[type], [Array.from(data)]);
      const set = file.create_dataset({ name, data: values, shape });
      if (dimensions[0] === name) set.make_scale(name);
    }
  }
  for (const { name, dimensions, attributes: all } of content.variables) {
    const set = file.get(name) as h5wasm.Dataset;
    attributes(set, all);
    for (const [k, dimension] of dimensions.entries()) {
      // A scale has no scales of its own.
      if (dimensions[0] !== name) set.attach_scale(k, dimension);
    }
  }
  file.close();
}
