// A ship's own cleaning procedure, from one JSON file.
import { BadInput, type Fault } from "../../read/badInput.js";
import { valueAt } from "../../read/valueAt.js";
import type { Ladder } from "./intensity.js";
import { ladderSchema } from "./ladderSchema.js";

/**
 * Read a ship's own cleaning procedure from text.
 * @param json text of the file: a list of the six intensities; `JSON.stringify(defaultLadder, null, 2)` is a pattern
 * @param file its name, for the error
 * @throws BadInput with every fault: place, found, expected
 */
export function readLadder(json: string, file = "ladder"): Ladder {
  const parsed = parse(json, file);
  const result = ladderSchema.safeParse(parsed);
  if (result.success) return result.data;
  throw new BadInput(
    result.error.issues.map(
      ({ path, message }): Fault => ({
        file,
        line: 0,
        ...(path.length === 0 ? {} : { column: path.join(".") }),
        found: shown(valueAt(parsed, path)),
        expected: message,
        mend: "Start from the default ladder and change its figures and sentences.",
      }),
    ),
  );
}

function parse(json: string, file: string): unknown {
  try {
    return JSON.parse(json);
  } catch (error) {
    throw new BadInput([
      {
        file,
        line: 0,
        found: error instanceof Error ? error.message : "text that cannot be parsed",
        expected: "JSON",
        mend: "Check quotes, commas and brackets.",
      },
    ]);
  }
}

/** Short enough for one line of an error. */
function shown(value: unknown): string {
  const text = value === undefined ? "nothing" : JSON.stringify(value);
  // Length that fits in a message (judgement).
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
