// Valid ids of casts, and comparison of ids written in two ways: a spreadsheet turns 001 into 1, and a file is called
// cast-001.csv although the bottles say 001.
import { group } from "d3-array";
import type { Fault } from "./badInput.js";

/** Control characters and those that reverse the direction of text, because ids reach terminals and pages. */
const hidden = /[\p{Cc}\p{Bidi_Control}\u2028\u2029]/u;
const longestId = 100;

/** The fault of an id; undefined if there is none. */
export function castIdFault(id: unknown): Pick<Fault, "found" | "expected" | "mend"> | undefined {
  const found =
    typeof id !== "string"
      ? "an id that is not text"
      : id.trim() === ""
        ? "a blank id"
        : hidden.test(id)
          ? "an id with control characters or a change of text direction"
          : id.length > longestId
            ? `an id of ${id.length} characters`
            : undefined;
  if (found === undefined) return undefined;
  return {
    found,
    expected: `the id of a cast: visible text, ${longestId} characters at the most`,
    mend: "Give the cast a plain id, such as 001.",
  };
}

/** Words that only say that a number is that of a cast. */
const generic = /\b(cast|ctd|station|stn|sta|st|profile|number|no|nr)\b/g;

interface CastIdParts {
  /** Groups of digits without leading zeros. */
  readonly numbers: readonly string[];
  /** The rest, in lower case, without punctuation and generic words. */
  readonly words: string;
}

function partsOf(id: string): CastIdParts {
  const numbers = (id.match(/\d+/g) ?? []).map((digits) => digits.replace(/^0+(?=\d)/, ""));
  const text = id
    .toLowerCase()
    .replace(/\d+/g, " ")
    .replace(/[^\p{L}]+/gu, " ");
  return { numbers, words: text.replace(generic, "").replace(/\s+/g, "") };
}

/** The id without leading zeros in any of its numbers. */
function bare(id: string): string {
  return id.replace(/\d+/g, (digits) => digits.replace(/^0+(?=\d)/, ""));
}

/**
 * @param listed ids known to the cruise
 * @returns a function from an id, in any spelling, to the one id in the list that it can mean; undefined if there is none,
 *   or more than one. It means the same id, the same apart from leading zeros, or the one with the same number if the words
 *   around it are the same or generic.
 */
export function castFinder(listed: readonly string[]): (id: string) => string | undefined {
  const known = new Set(listed);
  const byBare = group(listed, bare);
  const all = listed.map((id) => ({ id, ...partsOf(id) }));
  // In ids like leg2-cast-007, a number that is the same in all of them does not identify the cast.
  const count = all[0]?.numbers.length ?? 0;
  const even = all.every(({ numbers }) => numbers.length === count);
  const telling = Array.from({ length: even ? count : 0 }, (_, k) => k).filter(
    (k) => all.length === 1 || all.some(({ numbers }) => numbers[k] !== all[0]!.numbers[k]),
  );
  const numberOf = (numbers: readonly string[]) => telling.map((k) => numbers[k]).join("/");
  const byNumber =
    telling.length === 1
      ? group(all, ({ numbers }) => numberOf(numbers))
      : new Map<string, (typeof all)[number][]>();
  return (id) => {
    if (known.has(id)) return id;
    const alike = byBare.get(bare(id));
    if (alike !== undefined) return alike.length === 1 ? alike[0] : undefined;
    const { numbers, words } = partsOf(id);
    if (numbers.length !== 1) return undefined;
    const [only, more] = byNumber.get(numbers[0]!) ?? [];
    if (only === undefined || more !== undefined) return undefined;
    return words === "" || words === only.words || only.words === "" ? only.id : undefined;
  };
}
