/** Coefficients of the Gibbs function of ice Ih, [IAPWS2006]; complex numbers as [real, imaginary]. */

/** Triple point of water: temperature, K, and pressure, Pa. */
export const TRIPLE_POINT_TEMPERATURE = 273.16;
export const TRIPLE_POINT_PRESSURE = 611.657;

/** g00..g04, J/kg, in powers of (p - p0) / triple-point pressure. */
export const g0 = [
  -632020.233335886, 0.655022213658955, -1.89369929326131e-8, 3.39746123271053e-15,
  -5.56464869058991e-22,
] as const;

/** s0, J/(kg K), in the reference state that liquid water has in [IAPWS2009]. */
export const s0 = -3327.33756492168;

export const t1 = [0.0368017112855051, 0.0510878114959572] as const;
export const t2 = [0.337315741065416, 0.335449415919309] as const;

/** r1, and r20..r22 in powers of (p - p0) / triple-point pressure, J/(kg K). */
export const r1 = [44.7050716285388, 65.6876847463481] as const;
export const r2 = [
  [-72.597457432922, -78.100842711287],
  [-5.57107698030123e-5, 4.64578634580806e-5],
  [2.34801409215913e-11, -2.85651142924972e-11],
] as const;
