// The value at a path of keys, as in a fault of a schema.

/** Undefined if the path does not exist; inherited keys are ignored. */
export function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (at, key) =>
      typeof at === "object" && at !== null && Object.hasOwn(at, key)
        ? (at as Record<PropertyKey, unknown>)[key]
        : undefined,
    value,
  );
}
