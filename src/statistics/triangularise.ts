// The triangular factor of a matrix by Householder's reflections, on plain columns: least squares and likelihoods of
// many rows need no more of its QR decomposition.

import { dot } from "./orthonormal.js";

/**
 * Bring a matrix to upper triangular form in place by reflections of its rows, which keep all lengths and products
 * of its columns. The diagonal may have either sign.
 * @param columns of equal length, no more of them than they are long
 */
export function triangularise(columns: readonly Float64Array[]): void {
  for (const [k, own] of columns.entries()) {
    const length = Math.sqrt(dot(own, own, k));
    if (length === 0) continue;
    const corner = own[k]! > 0 ? -length : length;
    const halfSquare = length * (length + Math.abs(own[k]!));
    // The column becomes the normal of the reflection, then its image.
    own[k]! -= corner;
    for (let j = k + 1; j < columns.length; j++) {
      const other = columns[j]!;
      const share = dot(own, other, k) / halfSquare;
      for (let i = k; i < own.length; i++) other[i]! -= share * own[i]!;
    }
    own.fill(0, k);
    own[k] = corner;
  }
}
