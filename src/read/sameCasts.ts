// Compare the cast ids of two files, so that bottles find their cast.
import { castFinder } from "./castIds.js";

/** Of more than this many ids only the first are named. */
const mostNamed = 10;

/**
 * @param listed  ids known to the cruise
 * @param records with an id under `key`, or without one
 * @returns the records, with matched ids written as listed; notes on these; and the ids that match none
 */
export function sameCasts<K extends string, T extends { readonly [key in K]?: string }>(
  listed: readonly string[],
  records: readonly T[],
  key: K,
): {
  readonly records: readonly T[];
  readonly notes: readonly string[];
  readonly strangers: readonly string[];
} {
  const find = castFinder(listed);
  const renamed = new Map<string, string>();
  const strangers = new Set<string>();
  const matched = records.map((record): T => {
    const id = record[key];
    if (id === undefined) return record;
    const as = renamed.get(id) ?? find(id);
    if (as === undefined) strangers.add(id);
    if (as === undefined || as === id) return record;
    renamed.set(id, as);
    return { ...record, [key]: as };
  });
  return { records: matched, notes: noteOf(renamed), strangers: [...strangers] };
}

function noteOf(renamed: ReadonlyMap<string, string>): readonly string[] {
  if (renamed.size === 0) return [];
  const told = [...renamed].map(([id, as]) => `cast ${id} was taken for cast ${as} of the list`);
  const more = told.length - mostNamed;
  return [
    `${told.slice(0, mostNamed).join(", ")}${more > 0 ? `, and ${more} more by their numbers` : ""}`,
  ];
}
