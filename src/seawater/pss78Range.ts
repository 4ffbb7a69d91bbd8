/**
 * Whether a point lies where the Practical Salinity Scale 1978 is defined: 2 to 42, -2 to 35 degree C,
 * 0 to 10,000 dbar, limits included. False where a value is NaN.
 * @param sp  Practical Salinity, PSS-78
 * @param t   in-situ temperature, ITS-90 degree C
 * @param p   sea pressure, dbar
 * Source: [UNESCO1983].
 * @example inPss78Range(35, 10, 4000) // true
 */
export function inPss78Range(sp: number, t: number, p: number): boolean {
  return sp >= 2 && sp <= 42 && t >= -2 && t <= 35 && p >= 0 && p <= 10000;
}
