// Positions of the values in a JSON text (grammar of RFC 8259), because JSON.parse does not give them.

interface NestingLevel {
  readonly close: "}" | "]";
  /** The key, or the number of items before. */
  key: string | number;
}

const literal = /(?:true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?)/y;
// A JSON string contains no control characters.
const string = /"(?:[^"\\\p{Cc}]|\u007f|[\u0080-\u009f]|\\(?:["\\/bfnrt]|u[\da-fA-F]{4}))*"/uy;
const blank = /[ \t\r\n]*/y;

/**
 * @returns the offset of each value by its path (keys and indices as a JSON array of strings), and the offset at which the
 *   text ends or stops being JSON
 */
export function keyPositions(text: string): {
  readonly positions: ReadonlyMap<string, number>;
  readonly end: number;
} {
  const positions = new Map<string, number>();
  const levels: NestingLevel[] = [];
  let at = 0;
  const take = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = at;
    const found = pattern.exec(text)?.[0];
    at += found?.length ?? 0;
    return found;
  };
  const sign = (expected: string): boolean => {
    take(blank);
    if (text[at] !== expected) return false;
    at++;
    return true;
  };
  /** The key and colon before a value of an object. */
  const key = (level: NestingLevel): boolean => {
    if (level.close === "]") return true;
    take(blank);
    const name = take(string);
    if (name === undefined) return false;
    level.key = JSON.parse(name) as string;
    return sign(":");
  };
  for (;;) {
    take(blank);
    // Descriptions are never nested deeper; deeper paths are useless and cost the square of the depth.
    if (levels.length <= 8) positions.set(JSON.stringify(levels.map((l) => String(l.key))), at);
    const open = text[at];
    if (open === "{" || open === "[") {
      at++;
      const level: NestingLevel = open === "{" ? { close: "}", key: "" } : { close: "]", key: 0 };
      if (!sign(level.close)) {
        levels.push(level);
        if (!key(level)) return { positions, end: at };
        continue;
      }
    } else if (take(open === '"' ? string : literal) === undefined) {
      return { positions, end: at };
    }
    // After a value: close what ends here, then a comma and the next value.
    let last = levels.at(-1);
    while (last !== undefined && sign(last.close)) {
      levels.pop();
      last = levels.at(-1);
    }
    if (last === undefined || !sign(",")) {
      take(blank);
      return { positions, end: at };
    }
    if (typeof last.key === "number") last.key++;
    if (!key(last)) return { positions, end: at };
  }
}
