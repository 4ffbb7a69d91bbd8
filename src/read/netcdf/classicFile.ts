// NetCDF classic and 64-bit offset: netcdfjs reads the header; the data follow from types and offsets in it
// [NetCDFClassic2011].
import { NetCDFReader } from "netcdfjs";
import { BadInput } from "../badInput.js";
import type { NetcdfAttribute, NetcdfFile, NetcdfVariable } from "./netcdfFile.js";
import { textOfBytes } from "./values.js";

interface NumberType {
  readonly bytes: number;
  readonly isInteger: boolean;
  readonly get: (view: DataView, at: number) => number;
  /** NC_FILL of the type; bytes have no fill value, because every byte is a value. */
  readonly fill?: number;
}

const types: Readonly<Record<string, NumberType>> = {
  byte: { bytes: 1, isInteger: true, get: (view, at) => view.getInt8(at) },
  short: { bytes: 2, isInteger: true, get: (view, at) => view.getInt16(at), fill: -32767 },
  int: { bytes: 4, isInteger: true, get: (view, at) => view.getInt32(at), fill: -2147483647 },
  float: {
    bytes: 4,
    isInteger: false,
    get: (view, at) => view.getFloat32(at),
    fill: Math.fround(9.969209968386869e36),
  },
  double: {
    bytes: 8,
    isInteger: false,
    get: (view, at) => view.getFloat64(at),
    fill: 9.969209968386869e36,
  },
};

/** @throws BadInput if the bytes are not such a file, or end before their data */
export function classicFile(bytes: Uint8Array, file: string): NetcdfFile {
  if (bytes[3] === 5) throw new BadInput([newForm(file)]);
  let reader: NetCDFReader;
  try {
    reader = new NetCDFReader(bytes);
  } catch {
    throw new BadInput([broken(file, "a header that cannot be read")]);
  }
  const { header } = reader;
  const dimensions = header.dimensions ?? [];
  const variables = header.variables ?? [];
  const records = header.recordDimension.length;
  const recordId = header.recordDimension.id;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const isRecord = (ids: readonly number[]) => recordId !== undefined && ids[0] === recordId;
  const own = variables.filter((variable) => isRecord(variable.dimensions));
  const step = own.length === 1 ? undefined : header.recordDimension.recordStep;
  return {
    attributes: attributesOf(header.globalAttributes ?? []),
    variables: variables.map((variable): NetcdfVariable => {
      const { type, offset } = variable;
      const name = textOfBytes(variable.name);
      const shape = variable.dimensions.map((id) =>
        id === recordId ? records : (dimensions[id]?.size ?? Number.NaN),
      );
      const { bytes: size, isInteger, get, fill } = types[type] ?? characters;
      const count = shape.reduce((product, length) => product * length, 1);
      const inRecord = isRecord(variable.dimensions) && records > 0 ? count / records : count;
      // Records of a single variable follow each other without padding.
      const stride = step ?? inRecord * size;
      const check = () => {
        const runs = inRecord === 0 ? 0 : count / inRecord;
        const end = count === 0 ? 0 : offset + (runs - 1) * stride + inRecord * size;
        if (end <= bytes.length) return;
        throw new BadInput([broken(file, `${bytes.length} bytes, ${end} needed`, name)]);
      };
      const placeOf = (k: number) =>
        offset + Math.floor(k / inRecord) * stride + (k % inRecord) * size;
      return {
        name,
        dimensions: variable.dimensions.map((id) => textOfBytes(dimensions[id]?.name ?? "")),
        shape,
        attributes: attributesOf(variable.attributes),
        isInteger,
        ...(fill === undefined ? {} : { usualFill: fill }),
        read() {
          check();
          if (type === "char") {
            return Array.from({ length: count }, (_, k) => String.fromCharCode(bytes[placeOf(k)]!));
          }
          return Float64Array.from({ length: count }, (_, k) => get(view, placeOf(k)));
        },
      };
    }),
  };
}

const characters: NumberType = { bytes: 1, isInteger: false, get: () => Number.NaN };

function attributesOf(
  list: readonly { readonly name: string; readonly type: string; readonly value: unknown }[],
): ReadonlyMap<string, NetcdfAttribute> {
  return new Map(
    list.map(({ name, type, value }) => [
      textOfBytes(name),
      typeof value === "string"
        ? { value: textOfBytes(value).replace(/\0+$/, ""), isInteger: false }
        : { value: signed([value].flat() as number[], type), isInteger: isWhole(type) },
    ]),
  );
}

/** netcdfjs returns bytes of attributes without their sign. */
function signed(values: readonly number[], type: string): readonly number[] {
  return type === "byte" ? values.map((value) => (value > 127 ? value - 256 : value)) : values;
}

function isWhole(type: string): boolean {
  return types[type]?.isInteger ?? false;
}

function broken(file: string, found: string, column?: string) {
  return {
    file,
    line: 0,
    ...(column === undefined ? {} : { column }),
    found,
    expected: "a whole NetCDF file",
    mend: "Check that the file was written and copied to its end.",
  };
}

function newForm(file: string) {
  return {
    file,
    line: 0,
    found: "NetCDF in its 64-bit data form (CDF-5)",
    expected: "NetCDF classic, 64-bit offset, or NetCDF-4",
    mend: "Write it again as NetCDF-4.",
  };
}
