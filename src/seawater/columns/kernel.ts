import { assemble, CHUNK, columnAddress } from "./assemble.js";
import type { Formula } from "./formula.js";

/**
 * A formula compiled to run over columns two rows at a time. JavaScript has no vector instructions, but WebAssembly has.
 * The results are the same to the last bit as those of the same operations in JavaScript.
 */
export type Kernel = {
  /** One chunk of each input, and its results. */
  readonly inputs: readonly Float64Array[];
  readonly output: Float64Array;
  /** Compute the first rows of the chunk; returns a value no greater than any result, without NaN. */
  readonly run: (rows: number) => number;
};

// The parts of WebAssembly used here; the type libraries of Node and of browsers each have their own.
declare const WebAssembly: {
  Module: new (code: Uint8Array<ArrayBuffer>) => object;
  Instance: new (
    module: object,
  ) => {
    exports: { memory: { buffer: ArrayBuffer }; run: (bytes: number) => number };
  };
};

/** The kernel of a formula; undefined if the host has no vector WebAssembly or does not allow it. */
export function kernelOf(formula: Formula, inputCount: number): Kernel | undefined {
  const code = assemble(formula, inputCount);
  try {
    const { memory, run } = new WebAssembly.Instance(new WebAssembly.Module(code)).exports;
    const column = (index: number) => new Float64Array(memory.buffer, columnAddress(index), CHUNK);
    return {
      inputs: Array.from({ length: inputCount }, (_, index) => column(index)),
      output: column(inputCount),
      run: (rows) => run(8 * rows),
    };
  } catch {
    return undefined;
  }
}

/**
 * Run a kernel over whole columns.
 * @param mend  called after each chunk with its number of rows and its least result, to change `kernel.output`
 */
export function runKernel(
  kernel: Kernel,
  columns: readonly Float64Array[],
  out: Float64Array,
  mend?: (rows: number, least: number) => void,
): void {
  for (let start = 0; start < out.length; start += CHUNK) {
    const rows = Math.min(CHUNK, out.length - start);
    for (let i = 0; i < columns.length; i++)
      kernel.inputs[i]!.set(columns[i]!.subarray(start, start + rows));
    const least = kernel.run(rows);
    mend?.(rows, least);
    out.set(rows === CHUNK ? kernel.output : kernel.output.subarray(0, rows), start);
  }
}
