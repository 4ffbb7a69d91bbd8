// Plain values as compact JSON and back, exact to the last bit. A repeated value is written once, and the list of keys is
// written once for all objects that have them. Numbers, texts, booleans, null and lists are written as in JSON. An object is
//   {"7": [...]}        its values, in the order of the keys in `shapes[7]`
// Values that JSON lacks, or writes at length, are an object with one key that begins with "~":
//   {"~": "NaN"}        NaN, Infinity, -Infinity, -0, or undefined in a list
//   {"~": 7}            the value at place 7 of `shared`
//   {"~rows": [s, ...]} a list of objects of shape s, column by column
//   {"~lists": [...]}   a list of lists of one length, column by column
//   {"~same": [n, v]}   a list of n times v
//   {"~list": ...}      a list of numbers, as in plainNumbers.ts; {"~f64": ...} a Float64Array
//   {"~map": [k, v]}    a Map: the list of its keys and the list of its values
import { internedValues, type Node } from "./internedValues.js";
import {
  type DifferencesText,
  differencesText,
  type NumbersText,
  numbersFrom,
  numbersFromDifferences,
  numbersText,
} from "./plainNumbers.js";

export interface PlainJson {
  /** Keys of objects. */
  readonly shapes: readonly (readonly string[])[];
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

/** Shorter lists gain nothing (judgement). */
const fewest = 3;
/** A text up to this length is as short as a reference to it (judgement). */
const shortText = 8;

/** @throws TypeError if there is a value of another kind: a function, a class, another typed array */
export function toPlainJson(value: unknown): PlainJson {
  const { root, shapes } = internedValues(value);
  const shared: unknown[] = [];
  const places = new Map<Node, number>();
  const columnsAt = new Map<string, number>();
  const write = (node: Node): unknown => {
    if (!isShared(node)) return composed(node);
    let place = places.get(node);
    if (place === undefined) {
      place = shared.length;
      places.set(node, place);
      shared.push(null);
      shared[place] = composed(node);
    }
    return { "~": place };
  };
  const composed = (node: Node): unknown => {
    switch (node.kind) {
      case "scalar":
        return scalar(node.value);
      case "numbers":
        return { "~f64": numbersText(node.value as Float64Array) };
      case "map":
        return { "~map": node.parts.map(write) };
      case "object":
        return { [node.shape!]: node.parts.map(write) };
      case "list":
        return list(node.parts);
    }
  };
  const list = (parts: readonly Node[]): unknown => {
    const [first] = parts;
    if (first === undefined || parts.length < fewest) return parts.map(write);
    if (parts.every((one) => one === first)) return { "~same": [parts.length, write(first)] };
    if (parts.every(({ value }) => typeof value === "number")) return numbers(parts);
    const isElsewhere = (one: Node) => isShared(one) && !isInColumns(one);
    if (parts.some(isElsewhere) || !areAlike(parts)) return parts.map(write);
    const columns = first.parts.map((_, k) => list(parts.map((one) => one.parts[k]!)));
    return first.shape === undefined
      ? { "~lists": columns }
      : { "~rows": [first.shape, ...columns] };
  };
  /** As differences, if that is shorter. Columns often repeat, because several objects contain the same bottles. */
  const numbers = (parts: readonly Node[]): unknown => {
    const values = parts.map(({ value }) => value as number);
    const plain = values.map(scalar);
    const text = differencesText(Float64Array.from(values));
    const key = JSON.stringify(text);
    if (key.length + 20 > JSON.stringify(plain).length) return plain;
    const place = columnsAt.get(key) ?? shared.push({ "~list": text }) - 1;
    columnsAt.set(key, place);
    return { "~": place };
  };
  return { shapes, value: write(root), shared };
}

function isShared({ kind, value, parts, parents }: Node): boolean {
  if (parents < 2) return false;
  if (kind === "scalar") return typeof value === "string" && value.length > shortText;
  return kind === "numbers" || parts.length > 0;
}

/** Objects of one shape, or lists of one length, that are not empty. */
function areAlike(parts: readonly Node[]): boolean {
  const [first] = parts;
  if (first === undefined || first.parts.length === 0) return false;
  const { kind, shape } = first;
  if (kind !== "object" && kind !== "list") return false;
  const { length } = first.parts;
  return parts.every(
    (one) => one.kind === kind && one.shape === shape && one.parts.length === length,
  );
}

/**
 * Whether a value is written in columns: a scalar, or an object of such values that occurs at most four times. Any other
 * value is written once and referenced (judgement: size).
 */
function isInColumns({ kind, parts, parents }: Node): boolean {
  return kind === "scalar" || (kind === "object" && parents < 5 && parts.every(isInColumns));
}

function scalar(value: unknown): unknown {
  if (typeof value === "number") {
    const isPlain = Number.isFinite(value) && !Object.is(value, -0);
    return isPlain ? value : { "~": Object.is(value, -0) ? "-0" : String(value) };
  }
  return value === undefined ? { "~": "undefined" } : value;
}

/** @throws TypeError if the text has another form */
export function fromPlainJson({ shapes, shared, value }: PlainJson): unknown {
  const known = new Map<number, unknown>();
  const read = (one: unknown): unknown => {
    if (typeof one !== "object" || one === null) return one;
    if (Array.isArray(one)) return one.map(read);
    const [[mark, what] = ["nothing", undefined]] = Object.entries(one);
    const keys = shapes[Number(mark)];
    return keys !== undefined && Array.isArray(what)
      ? objectOf(keys, what.map(read))
      : marked(mark, what);
  };
  const marked = (mark: string, what: unknown): unknown => {
    if (mark === "~f64") return numbersFrom(what as NumbersText);
    if (mark === "~list") return Array.from(numbersFromDifferences(what as DifferencesText));
    if (mark === "~" && typeof what === "string" && special.has(what)) return special.get(what);
    if (mark === "~" && typeof what === "number" && what in shared) {
      if (!known.has(what)) known.set(what, read(shared[what]));
      return known.get(what);
    }
    if (!Array.isArray(what)) throw new TypeError(`expected a value, found the mark ${mark}`);
    if (mark === "~same") return new Array(what[0]).fill(read(what[1]));
    if (mark === "~lists") {
      const columns = what.map(read) as (readonly unknown[])[];
      return columns[0]!.map((_, i) => columns.map((own) => own[i]));
    }
    if (mark === "~rows") {
      const [shape, ...written] = what as [number, ...unknown[]];
      const columns = written.map(read) as (readonly unknown[])[];
      return columns[0]!.map((_, i) =>
        objectOf(
          shapes[shape]!,
          columns.map((own) => own[i]),
        ),
      );
    }
    if (mark === "~map") {
      const [keys, values] = what.map(read) as [readonly unknown[], readonly unknown[]];
      return new Map(keys.map((key, i) => [key, values[i]]));
    }
    throw new TypeError(`expected a value, found the mark ${mark}`);
  };
  return read(value);
}

function objectOf(keys: readonly string[], values: readonly unknown[]): unknown {
  return Object.fromEntries(keys.map((key, i) => [key, values[i]]));
}
