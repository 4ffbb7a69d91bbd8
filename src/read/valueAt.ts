// The value at a path of keys, as a schema names it where it finds a fault.

/** Undefined if the path leads to nothing; inherited keys are none. */
export function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (at, key) =>
      typeof at === "object" && at !== null && Object.hasOwn(at, key)
        ? (at as Record<PropertyKey, unknown>)[key]
        : undefined,
    value,
  );
}
