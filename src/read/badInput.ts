// The one error of bad input: where it stands, what was found, what was expected, how to mend it.

/** One fault in a file. */
export interface Fault {
  readonly file: string;
  /** Line in the file, from 1; 0 where the fault is of the file as a whole. */
  readonly line: number;
  /** Heading or position of the column, or path of the key in a JSON file. */
  readonly column?: string;
  readonly found: string;
  readonly expected: string;
  readonly mend: string;
}

/** Text that cannot be used. Several faults of one file are reported together. */
export class BadInput extends Error {
  override readonly name = "BadInput";
  readonly faults: readonly Fault[];

  constructor(faults: readonly Fault[]) {
    super(faults.map(faultSentence).join("\n"));
    this.faults = faults;
  }
}

/** A fault as one sentence for a person. */
export function faultSentence(fault: Fault): string {
  const line = fault.line > 0 ? `, line ${fault.line}` : "";
  const column = fault.column === undefined ? "" : `, column ${fault.column}`;
  return `${fault.file}${line}${column}: found ${fault.found}, expected ${fault.expected}. ${fault.mend}`;
}
