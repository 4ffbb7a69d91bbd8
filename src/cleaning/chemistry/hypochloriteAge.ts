// Hypochlorite loses strength on the shelf: 3 NaOCl -> 2 NaCl + NaClO3, second order in the hypochlorite.

/**
 * Loss at 21 degree C, per per-cent and day: fitted to a table of a 12.5 % stock, 11.1 % after one month, 9.3 % after
 * three, 7.8 % after six (an amateur's reckoning from published rate constants: indicative only).
 */
const rate = 0.009 / 30.4;
/** Each 10 K warmer it goes this much faster (technical note of an industrial manufacturer). */
const perTenKelvin = 3.5;

/**
 * Strength left, by 1/c = 1/c0 + k t.
 * Indicative: metal, light and warmth make it worse, and after months in the warm the loss slows more than this
 * says. A test strip is better.
 * @param percent available chlorine when fresh, grams in 100 ml
 * @returns grams in 100 ml
 * @example strengthAfter(12.5, 0, 20) // 12.5
 */
export function strengthAfter(percent: number, days: number, kept_C: number): number {
  return percent / (1 + rate * perTenKelvin ** ((kept_C - 21) / 10) * days * percent);
}
