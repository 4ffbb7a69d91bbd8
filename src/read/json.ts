// Parse JSON text; faults have line and column.
import { bisectLeft } from "d3-array";
import { BadInput } from "./badInput.js";
import { keyPositions } from "./jsonPositions.js";

/** @throws BadInput if the text is not JSON */
export function readJson(text: string, file: string): unknown {
  const bare = text.replace(/^\ufeff/, "");
  try {
    return JSON.parse(bare);
  } catch {
    // Engines word their errors differently, so the place is found here.
    const { end } = keyPositions(bare);
    const before = bare.slice(0, end).split("\n");
    const there = bare.slice(end, end + 1);
    throw new BadInput([
      {
        file,
        line: before.length,
        column: String(before.at(-1)!.length + 1),
        found: there === "" ? "the end of the text" : JSON.stringify(there),
        expected: "JSON",
        mend: "Look there, and just before, for a missing or extra comma, quote or bracket.",
      },
    ]);
  }
}

/**
 * @returns a function from a path to the line of its value, or of the last existing key of the path; 0 if none exists. The
 *   text is scanned once, at the first call.
 */
export function keyLines(text: string): (path: readonly PropertyKey[]) => number {
  const bare = text.replace(/^\ufeff/, "");
  let positions: ReadonlyMap<string, number> | undefined;
  const ends: number[] = [];
  const find = () => {
    for (let at = bare.indexOf("\n"); at >= 0; at = bare.indexOf("\n", at + 1)) ends.push(at);
    return keyPositions(bare).positions;
  };
  return (path) => {
    positions ??= find();
    for (let length = path.length; length > 0; length--) {
      const at = positions.get(pathKey(path.slice(0, length)));
      if (at !== undefined) return bisectLeft(ends, at) + 1;
    }
    return 0;
  };
}

function pathKey(path: readonly PropertyKey[]): string {
  return JSON.stringify(path.map(String));
}
