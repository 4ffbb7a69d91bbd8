// A function that computes its value once for each key.

/** @param make its further arguments are used only at the first call with a key */
export function eachOnce<K, A extends unknown[], V>(
  make: (key: K, ...others: A) => V,
): (key: K, ...others: A) => V {
  const known = new Map<K, V>();
  return (key, ...others) => {
    if (!known.has(key)) known.set(key, make(key, ...others));
    return known.get(key)!;
  };
}
