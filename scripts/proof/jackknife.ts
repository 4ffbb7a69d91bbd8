// How far a figure might be off because these cruises were drawn and not others: casts of one cruise go right or wrong
// together, so whole cruises are left out in turn [Tukey1958].

/** @returns the statistic of all groups together, and its standard error */
export function jackknife<Item>(
  groups: readonly (readonly Item[])[],
  statistic: (items: readonly Item[]) => number,
): { readonly value: number; readonly standardError: number } {
  const value = statistic(groups.flat());
  const count = groups.length;
  const without = groups.map((_, k) => statistic(groups.flatMap((own, i) => (i === k ? [] : own))));
  const mean = without.reduce((sum, other) => sum + other, 0) / count;
  const squares = without.reduce((sum, other) => sum + (other - mean) ** 2, 0);
  return { value, standardError: Math.sqrt(((count - 1) / count) * squares) };
}
