/** The same data with every key, array and tuple read-only, at any depth: what a schema infers, as functions take it. */
export type Immutable<T> = { readonly [K in keyof T]: Immutable<T[K]> };
