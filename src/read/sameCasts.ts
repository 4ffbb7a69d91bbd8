// Cast ids of two files held against each other. A spreadsheet makes 1 of 001 when it saves a table, which would
// part the bottles from their cast.

/**
 * @param listed  ids as the cruise knows them
 * @param records with an id under `key`, or without one
 * @returns the records, the ids that differ in leading zeros only written as listed; notes that say so; the ids
 *   that are not listed either way
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
  const known = new Set(listed);
  const byBare = new Map<string, string[]>();
  for (const id of listed) byBare.set(bare(id), [...(byBare.get(bare(id)) ?? []), id]);
  const renamed = new Map<string, string>();
  const strangers = new Set<string>();
  const matched = records.map((record): T => {
    const id = record[key];
    if (id === undefined || known.has(id)) return record;
    const alike = byBare.get(bare(id)) ?? [];
    if (alike.length !== 1) {
      strangers.add(id);
      return record;
    }
    renamed.set(id, alike[0]!);
    return { ...record, [key]: alike[0]! };
  });
  return {
    records: matched,
    notes: [...renamed].map(([id, as]) => `cast ${id} was taken for cast ${as} of the list`),
    strangers: [...strangers],
  };
}

function bare(id: string): string {
  return id.replace(/\d+/g, (digits) => digits.replace(/^0+(?=\d)/, ""));
}
