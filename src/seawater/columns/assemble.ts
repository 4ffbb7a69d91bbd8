import type { Formula, Operator } from "./formula.js";

/** Rows that one call works on: inputs and output of a chunk together stay in the nearest cache. */
export const CHUNK = 1024;

/** Byte address of a column in the memory of the module; the constants lie before the first. */
export const columnAddress = (index: number): number => 8 * (CONSTANTS + index * CHUNK);

const CONSTANTS = 512;

/**
 * The WebAssembly module of a formula. It exports its memory and `run(bytes)`, which computes the formula for rows of
 * that many bytes, two rows at a time, into the column after the inputs, and returns the least result, NaN left out.
 * @returns  the module in binary, and the address in its memory at which each constant is to be written
 * Source: the binary format of [WebAssembly].
 */
export function assemble(formula: Formula, inputCount: number) {
  const constants = new Map<number, number>();
  const vector = (value: number): number[] => {
    const address = constants.get(value) ?? constants.size * 8;
    constants.set(value, address);
    return [I32_CONST, 0, ...VECTOR_LOAD_SPLAT, ALIGN_8, ...unsigned(address)];
  };

  // Operands before operations, each once; every value has a local for each of the pairs of rows worked on together.
  const order = new Set<Formula>();
  const visit = (node: Formula): void => {
    if (order.has(node)) return;
    if (node.kind === "operation") node.of.forEach(visit);
    order.add(node);
  };
  visit(formula);
  const local = new Map([...order].map((node, i) => [node, FIRST_FREE + PAIRS * i]));
  const get = (node: Formula, pair: number): number[] =>
    node.kind === "constant"
      ? [LOCAL_GET, ...unsigned(local.get(node)!)]
      : [LOCAL_GET, ...unsigned(local.get(node)! + pair)];
  const set = (node: Formula, pair: number): number[] => [
    LOCAL_SET,
    ...unsigned(local.get(node)! + pair),
  ];
  const pairs = Array.from({ length: PAIRS }, (_, pair) => pair);
  const emit = (node: Formula): number[] => {
    if (node.kind === "constant") return [...vector(node.value), ...set(node, 0)];
    return pairs.flatMap((pair) => [
      ...(node.kind === "input"
        ? [
            LOCAL_GET,
            AT,
            ...VECTOR_LOAD,
            ALIGN_8,
            ...unsigned(columnAddress(node.index) + 16 * pair),
          ]
        : [...node.of.flatMap((operand) => get(operand, pair)), ...OPERATION[node.operator]]),
      ...set(node, pair),
    ]);
  };
  const store = pairs.flatMap((pair) => [
    ...[LOCAL_GET, AT, ...get(formula, pair)],
    ...[...VECTOR_STORE, ALIGN_8, ...unsigned(columnAddress(inputCount) + 16 * pair)],
    ...[LOCAL_GET, LEAST, ...get(formula, pair), ...VECTOR_LESSER, LOCAL_SET, LEAST],
  ]);

  const body = [
    ...[...vector(Number.POSITIVE_INFINITY), LOCAL_SET, LEAST],
    ...[LOOP, NO_RESULT, ...[...order].flatMap(emit), ...store],
    ...[LOCAL_GET, AT, I32_CONST, 16 * PAIRS, I32_ADD, LOCAL_TEE, AT],
    ...[LOCAL_GET, BYTES, I32_LESS, BRANCH_IF, 0, END],
    ...[LOCAL_GET, LEAST, ...LANE, 0, LOCAL_GET, LEAST, ...LANE, 1, F64_MIN, END],
  ];
  const vectors = PAIRS * order.size + 1;
  const withLocals = [2, 1, I32, ...unsigned(vectors), V128, ...body];
  const code = new Uint8Array([
    ...[0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0],
    ...section(1, [1, 0x60, 1, I32, 1, F64]),
    ...section(3, [1, 0]),
    ...section(5, [1, 0, 1]),
    ...section(7, [2, ...name("memory"), 2, 0, ...name("run"), 0, 0]),
    ...section(10, [1, ...unsigned(withLocals.length), ...withLocals]),
  ]);
  return { code, constants };
}

// Locals: the parameter, the address of the row, and three uses of vectors.
const [BYTES, AT, LEAST, FIRST_FREE] = [0, 1, 2, 3];

const PAIRS = 2;

const [I32, F64, V128, NO_RESULT] = [0x7f, 0x7c, 0x7b, 0x40];
const [LOOP, END, BRANCH_IF] = [0x03, 0x0b, 0x0d];
const [LOCAL_GET, LOCAL_SET, LOCAL_TEE] = [0x20, 0x21, 0x22];
const [I32_CONST, I32_LESS, I32_ADD, F64_MIN] = [0x41, 0x49, 0x6a, 0xa4];
const VECTOR = 0xfd;
const [VECTOR_LOAD, VECTOR_LOAD_SPLAT, VECTOR_STORE] = [
  [VECTOR, 0x00],
  [VECTOR, 0x0a],
  [VECTOR, 0x0b],
];
const LANE = [VECTOR, 0x21];
const ALIGN_8 = 3;
/** The lesser of two, the first where the second is NaN. */
const VECTOR_LESSER = [VECTOR, ...unsigned(0xf6)];
const OPERATION: Record<Operator, readonly number[]> = {
  squareRoot: [VECTOR, ...unsigned(0xef)],
  plus: [VECTOR, ...unsigned(0xf0)],
  minus: [VECTOR, ...unsigned(0xf1)],
  times: [VECTOR, ...unsigned(0xf2)],
  over: [VECTOR, ...unsigned(0xf3)],
};

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
