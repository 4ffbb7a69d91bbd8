import type { Formula, Operator } from "./formula.js";

/** Number of rows in one call: inputs and output of a chunk together fit into the nearest cache. */
export const CHUNK = 1024;

/** Byte address of a column in the memory of the module. */
export const columnAddress = (index: number): number => 8 * CHUNK * index;

/**
 * The WebAssembly module of a formula, in binary. It exports its memory and `run(bytes)`. `run` computes the formula for
 * rows of that many bytes, two rows at a time, into the column after the inputs. It returns the least result without NaN.
 * Source: the binary format of [WebAssembly].
 */
export function assemble(formula: Formula, inputCount: number): Uint8Array<ArrayBuffer> {
  const uses = new Map<Formula, number>();
  const count = (node: Formula): void => {
    const before = uses.get(node) ?? 0;
    uses.set(node, before + 1);
    if (before === 0 && node.kind === "operation") node.of.forEach(count);
  };
  count(formula);

  // A value used more than once is kept in a local of its own.
  const locals = new Map<Formula, number>();
  const emit = (node: Formula): number[] => {
    if (node.kind === "constant") return constant(node.value);
    const known = locals.get(node);
    if (known !== undefined) return [LOCAL_GET, ...unsigned(known)];
    const value =
      node.kind === "input"
        ? [LOCAL_GET, AT, ...LOAD, ALIGN_8, ...unsigned(columnAddress(node.index))]
        : [...node.of.flatMap(emit), ...OPERATION[node.operator]];
    if (uses.get(node) === 1) return value;
    const local = FIRST_FREE + locals.size;
    locals.set(node, local);
    return [...value, LOCAL_TEE, ...unsigned(local)];
  };

  const body = [
    ...[...constant(Number.POSITIVE_INFINITY), LOCAL_SET, LEAST],
    ...[LOOP, NO_RESULT, LOCAL_GET, AT],
    ...[...emit(formula), LOCAL_TEE, VALUE],
    ...[...STORE, ALIGN_8, ...unsigned(columnAddress(inputCount))],
    ...[LOCAL_GET, LEAST, LOCAL_GET, VALUE, ...LESSER, LOCAL_SET, LEAST],
    ...[LOCAL_GET, AT, I32_CONST, 16, I32_ADD, LOCAL_TEE, AT],
    ...[LOCAL_GET, BYTES, I32_LESS, BRANCH_IF, 0, END],
    ...[LOCAL_GET, LEAST, ...LANE, 0, LOCAL_GET, LEAST, ...LANE, 1, F64_MIN, END],
  ];
  const ownVectors = unsigned(locals.size + 2);
  const withLocals = [2, 1, I32, ...ownVectors, V128, ...body];
  return new Uint8Array([
    ...[0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0],
    ...section(1, [1, 0x60, 1, I32, 1, F64]),
    ...section(3, [1, 0]),
    ...section(5, [1, 0, 1]),
    ...section(7, [2, ...name("memory"), 2, 0, ...name("run"), 0, 0]),
    ...section(10, [1, ...unsigned(withLocals.length), ...withLocals]),
  ]);
}

// Locals: the parameter, the address of the row, the least result so far, the result, then shared values.
const [BYTES, AT, LEAST, VALUE, FIRST_FREE] = [0, 1, 2, 3, 4];

const [I32, F64, V128, NO_RESULT] = [0x7f, 0x7c, 0x7b, 0x40];
const [LOOP, END, BRANCH_IF] = [0x03, 0x0b, 0x0d];
const [LOCAL_GET, LOCAL_SET, LOCAL_TEE] = [0x20, 0x21, 0x22];
const [I32_CONST, I32_LESS, I32_ADD, F64_MIN] = [0x41, 0x49, 0x6a, 0xa4];

// Instructions on vectors of two doubles. If the second operand of the minimum is NaN, the result is the first.
const VECTOR = 0xfd;
const [LOAD, STORE, CONSTANT, LANE, LESSER] = [0x00, 0x0b, 0x0c, 0x21, 0xf6].map((code) => [
  VECTOR,
  ...unsigned(code),
]) as [number[], number[], number[], number[], number[]];
const ALIGN_8 = 3;
const OPERATION: Record<Operator, readonly number[]> = {
  squareRoot: [VECTOR, ...unsigned(0xef)],
  plus: [VECTOR, ...unsigned(0xf0)],
  minus: [VECTOR, ...unsigned(0xf1)],
  times: [VECTOR, ...unsigned(0xf2)],
  over: [VECTOR, ...unsigned(0xf3)],
};

function constant(value: number): number[] {
  const bytes = new DataView(new ArrayBuffer(8));
  bytes.setFloat64(0, value, true);
  const lane = Array.from({ length: 8 }, (_, i) => bytes.getUint8(i));
  return [...CONSTANT, ...lane, ...lane];
}

function section(id: number, content: readonly number[]): number[] {
  return [id, ...unsigned(content.length), ...content];
}

function name(text: string): number[] {
  return [text.length, ...Array.from(text, (letter) => letter.charCodeAt(0))];
}

/** A whole number in the variable-length code of the format (LEB128). */
function unsigned(value: number): number[] {
  return value < 0x80 ? [value] : [(value & 0x7f) | 0x80, ...unsigned(value >>> 7)];
}
