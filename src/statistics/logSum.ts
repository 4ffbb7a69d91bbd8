// Sums of numbers given by their natural logarithms, too small or too large for a double.

/** Terms this far below the greatest add nothing. */
const nothing = -40;

/**
 * @param shares factor of each number; 1 if absent
 * @returns the natural logarithm of the sum; minus infinity without numbers
 */
export function logSum(logs: ArrayLike<number>, shares?: ArrayLike<number>): number {
  let most = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < logs.length; k++) if (logs[k]! > most) most = logs[k]!;
  if (!Number.isFinite(most)) return most;
  let sum = 0;
  for (let k = 0; k < logs.length; k++) {
    const below = logs[k]! - most;
    if (below > nothing) sum += (shares?.[k] ?? 1) * Math.exp(below);
  }
  return most + Math.log(sum);
}
