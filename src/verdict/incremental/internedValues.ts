// Plain values with every value stored once: values that are equal to the last bit share one node.

export interface Node {
  readonly kind: "scalar" | "numbers" | "list" | "object" | "map";
  /** Of a scalar or of numbers. */
  readonly value?: unknown;
  /** Values of a list or an object in order; of a map the list of its keys and the list of its values. */
  readonly parts: readonly Node[];
  /** For an object: index of its list of keys. */
  readonly shape?: number;
  /** Number of different values that contain it. */
  parents: number;
}

interface Nodes {
  readonly root: Node;
  /** Keys of objects, each list of keys once. */
  readonly shapes: readonly (readonly string[])[];
}

const none: readonly Node[] = [];

/**
 * Keys with the value undefined are left out, as in JSON.
 * @throws TypeError if there is a value of another kind: a function, a class, another typed array
 */
export function internedValues(value: unknown): Nodes {
  const shapes: (readonly string[])[] = [];
  const shapeOf = new Map<string, number>();
  const nodes = new Map<string, Node>();
  const ids = new Map<Node, number>();
  const seen = new Map<object, Node>();

  const node = (key: string, made: () => Omit<Node, "parents">): Node => {
    let found = nodes.get(key);
    if (found === undefined) {
      found = { ...made(), parents: 0 };
      nodes.set(key, found);
      ids.set(found, ids.size);
      for (const part of new Set(found.parts)) part.parents++;
    }
    return found;
  };
  const keyOf = (parts: readonly Node[]) => parts.map((part) => ids.get(part)).join(" ");
  const listOf = (values: Iterable<unknown>): Node => {
    const parts = Array.from(values, nodeOf);
    return node(`list ${keyOf(parts)}`, () => ({ kind: "list", parts }));
  };
  const composite = (one: object): Node => {
    if (one instanceof Float64Array) {
      return node(`numbers ${bytesOf(one)}`, () => ({ kind: "numbers", value: one, parts: none }));
    }
    if (Array.isArray(one)) return listOf(one);
    if (one instanceof Map) {
      const parts = [listOf(one.keys()), listOf(one.values())];
      return node(`map ${keyOf(parts)}`, () => ({ kind: "map", parts }));
    }
    if (Object.getPrototypeOf(one) !== Object.prototype)
      throw new TypeError(`expected plain values, found a ${one.constructor?.name}`);
    const entries = Object.entries(one).filter(([, part]) => part !== undefined);
    const keys = entries.map(([key]) => key);
    const named = JSON.stringify(keys);
    const shape = shapeOf.get(named) ?? shapes.push(keys) - 1;
    shapeOf.set(named, shape);
    const parts = entries.map(([, part]) => nodeOf(part));
    return node(`object ${shape} ${keyOf(parts)}`, () => ({ kind: "object", shape, parts }));
  };
  const nodeOf = (one: unknown): Node => {
    if (typeof one !== "object" || one === null) {
      return node(scalarKey(one), () => ({ kind: "scalar", value: one, parts: none }));
    }
    let found = seen.get(one);
    if (found === undefined) {
      found = composite(one);
      seen.set(one, found);
    }
    return found;
  };
  return { root: nodeOf(value), shapes };
}

function scalarKey(value: unknown): string {
  if (typeof value === "string") return `text ${value}`;
  if (typeof value === "number") return Object.is(value, -0) ? "-0" : String(value);
  if (value === undefined || value === null || typeof value === "boolean") return String(value);
  throw new TypeError(`expected plain values, found a ${typeof value}`);
}

function bytesOf(numbers: Float64Array): string {
  const units = new Uint16Array(numbers.buffer, numbers.byteOffset, 4 * numbers.length);
  let text = "";
  for (let i = 0; i < units.length; i += atOnce)
    text += String.fromCharCode(...units.subarray(i, i + atOnce));
  return text;
}

/** Number of arguments of one call of String.fromCharCode: engines have limits from some ten thousand up. */
const atOnce = 8192;
