/** The same data with every key, array and tuple read-only, at any depth. */
export type Immutable<T> = { readonly [K in keyof T]: Immutable<T[K]> };
