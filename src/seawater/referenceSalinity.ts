import { outputFor } from "./outputFor.js";

/** Reference Salinity per unit of Practical Salinity, g/kg: 35.16504 / 35, [MilleroEtAl2008]. */
const GRAM_PER_KILOGRAM = 35.16504 / 35;

/**
 * Reference Salinity from Practical Salinity: the Absolute Salinity of standard seawater of that conductivity. It excludes
 * the geographic anomaly of composition, which cancels in comparisons within one region.
 * @param sp  Practical Salinity, PSS-78
 * @returns   Reference Salinity, g/kg
 * Source: [MilleroEtAl2008], [TEOS10].
 * @example srFromSp(35) // 35.16504
 */
export function srFromSp(sp: number): number {
  return sp * GRAM_PER_KILOGRAM;
}

/**
 * Practical Salinity from Reference Salinity (g/kg).
 * Source: [MilleroEtAl2008], [TEOS10].
 * @example spFromSr(35.16504) // 35
 */
export function spFromSr(sr: number): number {
  return sr / GRAM_PER_KILOGRAM;
}

/** `srFromSp` of every value of a column; `out` may be the input itself. */
export function srFromSpColumn(sp: Float64Array, out?: Float64Array): Float64Array {
  const sr = outputFor(out, sp);
  for (let i = 0; i < sr.length; i++) sr[i] = srFromSp(sp[i]!);
  return sr;
}
