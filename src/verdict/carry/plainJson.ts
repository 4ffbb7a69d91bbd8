// Plain values as JSON and back, exact to the last bit. JSON has numbers, texts, lists and objects; what it has not is an
// object with one key that begins with "~":
//   {"~": "NaN"}        NaN, Infinity, -Infinity, -0, or undefined in a list
//   {"~": 7}            the value that stands at place 7 of `shared`: what is met twice is written once, and is one again
//   {"~f64": ...}       a Float64Array, as in plainNumbers.ts
//   {"~table": ...}     a list of objects that have the same keys, in one order, and numbers under them: column by column
//   {"~map": [[k, v]]}  a Map, in order; {"~map64": ...} of numbers to numbers
//   {"~keys": [[k, v]]} an object with a key that begins with "~"
import { type NumbersText, numbersFrom, numbersText } from "./plainNumbers.js";

export interface PlainJson {
  readonly shared: readonly unknown[];
  readonly value: unknown;
}

const special = new Map<string, unknown>([
  ["NaN", Number.NaN],
  ["Infinity", Number.POSITIVE_INFINITY],
  ["-Infinity", Number.NEGATIVE_INFINITY],
  ["-0", -0],
  ["undefined", undefined],
]);

/** @throws TypeError for a value of another kind: a function, a class, another typed array */
export function toPlainJson(value: unknown): PlainJson {
  const times = timesMet(value);
  const shared: unknown[] = [];
  const places = new Map<object, number>();
  const write = (one: unknown): unknown => {
    if (typeof one !== "object" || one === null) return scalar(one);
    if (times.get(one) === 1) return composed(one, write);
    let place = places.get(one);
    if (place === undefined) {
      place = shared.length;
      places.set(one, place);
      shared.push(null);
      shared[place] = composed(one, write);
    }
    return { "~": place };
  };
  return { value: write(value), shared };
}

/** Count how often each object occurs, to find those that occur twice. */
function timesMet(value: unknown): ReadonlyMap<object, number> {
  const times = new Map<object, number>();
  const waiting: unknown[] = [value];
  while (waiting.length > 0) {
    const one = waiting.pop();
    if (typeof one !== "object" || one === null) continue;
    const before = times.get(one) ?? 0;
    times.set(one, before + 1);
    if (before > 0 || one instanceof Float64Array) continue;
    for (const part of one instanceof Map ? [...one].flat() : Object.values(one))
      waiting.push(part);
  }
  return times;
}

function scalar(value: unknown): unknown {
  if (typeof value === "number") {
    const isPlain = Number.isFinite(value) && !Object.is(value, -0);
    return isPlain ? value : { "~": Object.is(value, -0) ? "-0" : String(value) };
  }
  if (value === undefined) return { "~": "undefined" };
  if (value === null || typeof value === "string" || typeof value === "boolean") return value;
  throw new TypeError(`expected plain values, found a ${typeof value}`);
}

function composed(value: object, write: (part: unknown) => unknown): unknown {
  if (value instanceof Float64Array) return { "~f64": numbersText(value) };
  if (value instanceof Map) {
    const flat = [...value].flat();
    return flat.every((one) => typeof one === "number")
      ? { "~map64": numbersText(Float64Array.from(flat)) }
      : { "~map": [...value].map(([k, v]) => [write(k), write(v)]) };
  }
  if (Array.isArray(value)) return tableOf(value) ?? value.map(write);
  if (Object.getPrototypeOf(value) !== Object.prototype)
    throw new TypeError(`expected plain values, found a ${value.constructor?.name}`);
  const entries = Object.entries(value).filter(([, part]) => part !== undefined);
  const written = entries.map(([key, part]) => [key, write(part)] as const);
  return written.some(([key]) => key.startsWith("~"))
    ? { "~keys": written }
    : Object.fromEntries(written);
}

/** Shorter lists are not written as a table, because that saves nothing (judgement). */
const fewestRows = 4;

function tableOf(list: readonly unknown[]): unknown {
  const [first] = list;
  if (list.length < fewestRows || !isRow(first)) return undefined;
  const keys = Object.keys(first);
  const isAlike = (row: unknown) =>
    isRow(row) &&
    Object.keys(row).length === keys.length &&
    Object.entries(row).every(([key, v], i) => key === keys[i] && typeof v === "number");
  if (keys.length === 0 || !list.every(isAlike)) return undefined;
  const rows = list as readonly Readonly<Record<string, number>>[];
  const columns = keys.map((key) => numbersText(Float64Array.from(rows, (row) => row[key]!)));
  return { "~table": { keys, columns } };
}

function isRow(value: unknown): value is object {
  return (
    typeof value === "object" && value !== null && Object.getPrototypeOf(value) === Object.prototype
  );
}

function rowsOf({ keys, columns }: Table): readonly unknown[] {
  const read = columns.map(numbersFrom);
  return Array.from(read[0]!, (_, i) =>
    Object.fromEntries(keys.map((key, k) => [key, read[k]![i]])),
  );
}

interface Table {
  readonly keys: readonly string[];
  readonly columns: readonly NumbersText[];
}

/** @throws TypeError if it is not of this form */
export function fromPlainJson({ shared, value }: PlainJson): unknown {
  const known = new Map<number, unknown>();
  const read = (one: unknown): unknown => {
    if (typeof one !== "object" || one === null) return one;
    if (Array.isArray(one)) return one.map(read);
    const [only, ...others] = Object.entries(one);
    if (only === undefined || others.length > 0 || !only[0].startsWith("~")) {
      return Object.fromEntries(Object.entries(one).map(([key, part]) => [key, read(part)]));
    }
    return readMarked(only[0], only[1]);
  };
  const readMarked = (mark: string, what: unknown): unknown => {
    if (mark === "~f64") return numbersFrom(what as NumbersText);
    if (mark === "~table") return rowsOf(what as Table);
    if (mark === "~map64") {
      const flat = numbersFrom(what as NumbersText);
      return new Map(
        Array.from({ length: flat.length / 2 }, (_, i) => [flat[2 * i], flat[2 * i + 1]]),
      );
    }
    if (mark === "~map" && Array.isArray(what)) return new Map(read(what) as [unknown, unknown][]);
    if (mark === "~keys" && Array.isArray(what))
      return Object.fromEntries(read(what) as [string, unknown][]);
    if (mark === "~" && typeof what === "string" && special.has(what)) return special.get(what);
    if (mark === "~" && typeof what === "number" && what in shared) {
      if (!known.has(what)) known.set(what, read(shared[what]));
      return known.get(what);
    }
    throw new TypeError(`expected a value, found the mark ${mark}`);
  };
  return read(value);
}
