// An unknown value is an absent key, never an undefined one.

/** A record without the keys that have no value. */
export function present<T extends object>(
  record: { readonly [K in keyof T]: T[K] | undefined },
): T {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined)) as T;
}
