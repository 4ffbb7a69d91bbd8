// Whether two plain values are the same to the last digit.

/** Compares objects, lists, typed arrays and maps by value. NaN equals NaN, and an absent key equals undefined. */
export function samePlain(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (a instanceof Map || b instanceof Map) {
    return a instanceof Map && b instanceof Map && samePlain([...a], [...b]);
  }
  if (Array.isArray(a) || ArrayBuffer.isView(a)) {
    if (!Array.isArray(b) && !ArrayBuffer.isView(b)) return false;
    const [one, other] = [a as ArrayLike<unknown>, b as ArrayLike<unknown>];
    if (one.length !== other.length) return false;
    for (let i = 0; i < one.length; i++) if (!samePlain(one[i], other[i])) return false;
    return true;
  }
  if (Array.isArray(b) || ArrayBuffer.isView(b)) return false;
  const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  for (const key of new Set([...Object.keys(one), ...Object.keys(other)])) {
    if (!samePlain(one[key], other[key])) return false;
  }
  return true;
}
