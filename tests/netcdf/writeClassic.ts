// A writer of NetCDF classic and 64-bit offset files for the tests, from the public specification of the format
// [NetCDFClassic2011]: what is read was not written by the reader's own author's library.

export type ClassicType = "byte" | "char" | "short" | "int" | "float" | "double";
export type ClassicValue =
  | string
  | { readonly type: ClassicType; readonly values: readonly number[] };
export interface ClassicVariable {
  readonly name: string;
  readonly dimensions: readonly string[];
  readonly type: ClassicType;
  readonly attributes?: Readonly<Record<string, ClassicValue>>;
  /** Of a record variable, record after record; of characters one text. */
  readonly data: ArrayLike<number> | string;
}
export interface ClassicContent {
  /** In their order; the length of the record dimension is that of its records. */
  readonly dimensions: Readonly<Record<string, number>>;
  readonly record?: string;
  readonly attributes?: Readonly<Record<string, ClassicValue>>;
  readonly variables: readonly ClassicVariable[];
}

const codes = { byte: 1, char: 2, short: 3, int: 4, float: 5, double: 6 } as const;
const sizes = { byte: 1, char: 1, short: 2, int: 4, float: 4, double: 8 } as const;

export function writeClassic(content: ClassicContent, version: 1 | 2 = 1): Uint8Array {
  const names = Object.keys(content.dimensions);
  const isRecord = (v: ClassicVariable) =>
    content.record !== undefined && v.dimensions[0] === content.record;
  const records = content.variables.filter(isRecord);
  const elements = (v: ClassicVariable) =>
    v.dimensions
      .filter((name) => name !== content.record)
      .reduce((product, name) => product * content.dimensions[name]!, 1);
  const padded = (bytes: number) => 4 * Math.ceil(bytes / 4);
  const sizeOf = (v: ClassicVariable) => elements(v) * sizes[v.type];
  // One record variable alone is not padded.
  const inRecord = (v: ClassicVariable) => (records.length === 1 ? sizeOf(v) : padded(sizeOf(v)));
  const header = (begins: ReadonlyMap<string, number>) => {
    const bytes: number[] = [0x43, 0x44, 0x46, version];
    const int = (value: number) => bytes.push(...bytesOf("int", [value]));
    const text = (value: string) => {
      int(value.length);
      bytes.push(...[...value].map((c) => c.charCodeAt(0)));
      while (bytes.length % 4 !== 0) bytes.push(0);
    };
    const list = (tag: number, count: number) => {
      int(count === 0 ? 0 : tag);
      int(count);
    };
    const attributes = (all: Readonly<Record<string, ClassicValue>> = {}) => {
      list(12, Object.keys(all).length);
      for (const [name, value] of Object.entries(all)) {
        text(name);
        int(codes[typeof value === "string" ? "char" : value.type]);
        if (typeof value === "string") text(value);
        else {
          int(value.values.length);
          bytes.push(...bytesOf(value.type, value.values));
          while (bytes.length % 4 !== 0) bytes.push(0);
        }
      }
    };
    int(content.record === undefined ? 0 : content.dimensions[content.record]!);
    list(10, names.length);
    for (const name of names) {
      text(name);
      int(name === content.record ? 0 : content.dimensions[name]!);
    }
    attributes(content.attributes);
    list(11, content.variables.length);
    for (const variable of content.variables) {
      text(variable.name);
      int(variable.dimensions.length);
      for (const name of variable.dimensions) int(names.indexOf(name));
      attributes(variable.attributes);
      int(codes[variable.type]);
      int(padded(sizeOf(variable)));
      if (version === 2) int(0);
      int(begins.get(variable.name) ?? 0);
    }
    return bytes;
  };
  let at = header(new Map()).length;
  const begins = new Map<string, number>();
  for (const variable of content.variables.filter((v) => !isRecord(v))) {
    begins.set(variable.name, at);
    at += padded(sizeOf(variable));
  }
  for (const variable of records) {
    begins.set(variable.name, at);
    at += inRecord(variable);
  }
  const step = records.reduce((sum, v) => sum + inRecord(v), 0);
  const count = content.record === undefined ? 0 : content.dimensions[content.record]!;
  const file = new Uint8Array(at + step * Math.max(0, count - 1) * (records.length > 0 ? 1 : 0));
  file.set(header(begins));
  for (const variable of content.variables) {
    const data =
      typeof variable.data === "string"
        ? [...variable.data].map((c) => c.charCodeAt(0))
        : Array.from(variable.data);
    const each = elements(variable);
    const runs = isRecord(variable) ? count : 1;
    for (let k = 0; k < runs; k++) {
      const place = begins.get(variable.name)! + k * step;
      file.set(bytesOf(variable.type, data.slice(k * each, (k + 1) * each)), place);
    }
  }
  return file;
}

/** Big-endian. */
function bytesOf(type: ClassicType, values: readonly number[]): Uint8Array {
  const bytes = new Uint8Array(values.length * sizes[type]);
  const view = new DataView(bytes.buffer);
  for (const [k, value] of values.entries()) {
    const at = k * sizes[type];
    if (type === "double") view.setFloat64(at, value);
    else if (type === "float") view.setFloat32(at, value);
    else if (type === "int") view.setInt32(at, value);
    else if (type === "short") view.setInt16(at, value);
    else view.setUint8(at, value & 255);
  }
  return bytes;
}
