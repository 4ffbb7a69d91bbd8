// The single error type for bad input: its place, the found text, the expected text, and how to correct it.

/** One fault in a file. */
export interface Fault {
  readonly file: string;
  /** Line in the file, from 1; 0 if the fault concerns the whole file. */
  readonly line: number;
  /** Heading or position of the column, or path of the key in a JSON file. */
  readonly column?: string;
  readonly found: string;
  readonly expected: string;
  readonly mend: string;
}

/** Input that cannot be used. Several faults of one file are reported together. */
export class BadInput extends Error {
  override readonly name = "BadInput";
  readonly faults: readonly Fault[];

  constructor(faults: readonly Fault[]) {
    const more = faults.length - mostTold;
    const told = faults.slice(0, mostTold).map(faultSentence);
    super([...told, ...(more > 0 ? [`and ${more} more.`] : [])].join("\n"));
    this.faults = faults;
  }
}

/** Number of faults in the message; `faults` has all of them. */
const mostTold = 20;
/** Longer texts from a file are shortened in messages. */
const longestShown = 60;

/** A fault as one sentence for a person; control characters of a file do not reach the terminal. */
export function faultSentence(fault: Fault): string {
  const line = fault.line > 0 ? `, line ${fault.line}` : "";
  const column = fault.column === undefined ? "" : `, column ${shortened(fault.column)}`;
  const sentence = `${fault.file}${line}${column}: found ${fault.found}, expected ${fault.expected}. ${fault.mend}`;
  return sentence.replace(/\p{Cc}/gu, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

/** A value of a file, short enough for one line: text in quotes; lists and objects only by their kind. */
export function quoted(value: unknown): string {
  if (value === undefined) return "nothing";
  if (typeof value === "object" && value !== null) {
    return Array.isArray(value) ? "a list" : "an object";
  }
  // JSON has no NaN.
  return shortened(typeof value === "number" ? String(value) : JSON.stringify(value));
}

function shortened(text: string): string {
  return text.length > longestShown ? `${text.slice(0, longestShown - 3)}...` : text;
}
