/** Coefficients of the Practical Salinity Scale 1978, [Lewis1980] and [UNESCO1983]. */

/** C(SP 35, IPTS-68 15 degree C, 0 dbar), mS/cm: [CulkinSmith1980], the value used by TEOS-10. */
export const C3515 = 42.914;

/** a0..a5: salinity at 15 degree C in powers of the square root of Rt. */
export const a = [0.008, -0.1692, 25.3851, 14.0941, -7.0261, 2.7081] as const;

/** b0..b5: its change with temperature, in the same powers. */
export const b = [0.0005, -0.0056, -0.0066, -0.0375, 0.0636, -0.0144] as const;

/** k of the temperature factor (t68 - 15) / (1 + k (t68 - 15)). */
export const k = 0.0162;

/** c0..c4: rt, the conductivity of standard seawater against that at 15 degree C, in powers of t68. */
export const c = [0.6766097, 2.00564e-2, 1.104259e-4, -6.9698e-7, 1.0031e-9] as const;

/** d1..d4 and e1..e3: Rp, the effect of pressure on conductivity. */
export const d = [3.426e-2, 4.464e-4, 4.215e-1, -3.107e-3] as const;
export const e = [2.07e-5, -6.37e-10, 3.989e-15] as const;
