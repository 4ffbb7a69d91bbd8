// Hypochlorite loses strength in storage: 3 NaOCl -> 2 NaCl + NaClO3, second order in the hypochlorite. Published rates
// differ, so the strength is given as two bounds.

/** Remaining available chlorine, grams in 100 ml. */
export interface StrengthBounds {
  readonly least: number;
  readonly most: number;
}

/**
 * Loss at 21 degree C per per-cent and month. A table of a 12.5 % stock (11.1 % after 1 month, 9.3 % after 3, 7.8 %
 * after 6; computed by an amateur from published rate constants: indicative) gives 0.0101, 0.0092 and 0.0080. The bounds
 * lie outside these (judgement).
 */
const perMonth = { fast: 0.0105, slow: 0.0075 };
/** A year of 365 days in twelve parts (derived). */
const days_month = 30.4;
/** Temperature and strength of the stock in the table above (no source). */
const table = { kept_C: 21, percent: 12.5 };
/**
 * Factor of the rate for each 10 K: 3.5 by the technical note of an industrial manufacturer; the same table at 38 degree C
 * (6.7, 4.3, 3.2 %) gives 2.5 to 3.1 (judgement between the two; no published source).
 */
const perTenKelvin = { high: 3.5, low: 2.5 };
/** In the same note 200 g/l loses 5 times faster than 100 g/l, second order gives 4: the order above 2 (derived). */
const orderAboveTwo = Math.log2(5) - 2;
/** Additional loss in 30 days at 20 degree C in a closed brown bottle: at most 3 % [RutalaEtAl1998]. */
const lostInBottle = 0.03;
/** Assumed range if the temperature is unknown: that of a ship's store (judgement), degree C. */
export const storeTemperatures_C = { cold: 10, warm: 30 };

/**
 * Remaining strength, by 1/c = 1/c0 + k t. For a stock of 1 % or more, kept closed and dark: metal, light and slime cause
 * further loss. A test strip is better.
 * @param percent available chlorine when fresh, grams in 100 ml
 * @param kept_C  storage temperature; 10 to 30 degree C if absent
 * @example strengthAfter(12.5, 0, 20) // { least: 12.5, most: 12.5 }
 */
export function strengthAfter(percent: number, days: number, kept_C?: number): StrengthBounds {
  const months = days / days_month;
  const order = (percent / table.percent) ** orderAboveTwo;
  const warm = warmth(kept_C ?? storeTemperatures_C.warm);
  const cold = warmth(kept_C ?? storeTemperatures_C.cold);
  const least = left(percent, months * perMonth.fast * warm.most * Math.max(1, order));
  return {
    // Per 30 days: see lostInBottle (judgement).
    least: least * (1 - lostInBottle) ** (days / 30),
    most: left(percent, months * perMonth.slow * cold.least * Math.min(1, order)),
  };
}

function left(percent: number, perPercent: number): number {
  return percent / (1 + perPercent * percent);
}

function warmth(kept_C: number) {
  const tens = (kept_C - table.kept_C) / 10;
  const [high, low] = [perTenKelvin.high ** tens, perTenKelvin.low ** tens];
  return { most: Math.max(high, low), least: Math.min(high, low) };
}
