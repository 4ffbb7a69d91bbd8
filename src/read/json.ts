// JSON text, its faults with line and column.
import { BadInput } from "./badInput.js";

/** @throws BadInput where the text is no JSON */
export function readJson(text: string, file: string): unknown {
  try {
    return JSON.parse(text.replace(/^\ufeff/, ""));
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    const position = Number(/position (\d+)/.exec(message)?.[1] ?? text.length);
    const before = text.slice(0, position).split("\n");
    throw new BadInput([
      {
        file,
        line: before.length,
        column: String(before.at(-1)!.length + 1),
        found: "text that is not JSON",
        expected: "JSON",
        mend: `${message.replace(/ in JSON.*$/s, "")}: look there for a comma, quote or bracket.`,
      },
    ]);
  }
}

/** The line on which a key of a path stands, 0 where it cannot be found. */
export function lineOfKey(text: string, path: readonly PropertyKey[]): number {
  let from = 0;
  for (const key of path) {
    if (typeof key === "number") {
      // The key-th object after here.
      for (let i = 0; i <= key; i++) from = Math.max(from, text.indexOf("{", from) + 1);
      continue;
    }
    const at = text.indexOf(JSON.stringify(String(key)), from);
    if (at < 0) break;
    from = at;
  }
  return from === 0 ? 0 : text.slice(0, from).split("\n").length;
}
