/** Ratio of an IPTS-68 to an ITS-90 temperature, good to a few 0.1 mK over the ocean's range: [Saunders1990]. */
export const T68_PER_T90 = 1.00024;

/**
 * ITS-90 temperature from an IPTS-68 temperature, both in degree C.
 * Source: [Saunders1990].
 * @example t90FromT68(15.0036) // 15
 */
export function t90FromT68(t68: number): number {
  return t68 / T68_PER_T90;
}

/**
 * IPTS-68 temperature from an ITS-90 temperature, both in degree C.
 * Source: [Saunders1990].
 * @example t68FromT90(15) // 15.0036
 */
export function t68FromT90(t90: number): number {
  return t90 * T68_PER_T90;
}
