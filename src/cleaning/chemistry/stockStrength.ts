// Present strength of a stock, from its label and its age.
import { type StrengthBounds, strengthAfter } from "./hypochloriteAge.js";
import { checkStock } from "./plausibleStock.js";
import {
  chlorineInHypochlorite,
  type HypochloriteStock,
  molarMass_g_mol,
  type Stock,
} from "./stock.js";

/**
 * Present strength of the stock, in the unit of its kind: two bounds, which differ if it has aged.
 * @throws DilutionRefused if a property of the stock is missing or not plausible
 * @example stockStrength({ kind: "hypochlorite", percent: 5, meaning: "available chlorine by volume" }) // { least: 50000,
 *   most: 50000 }
 */
export function stockStrength(stock: Stock): StrengthBounds {
  checkStock(stock);
  switch (stock.kind) {
    case "hypochlorite": {
      const { least, most } = strengthAfter(
        chlorinePercent(stock),
        stock.age_days ?? 0,
        stock.kept_C,
      );
      // 1 % by volume is 10 g, or 10 000 mg, in a litre, by definition.
      return { least: 10_000 * least, most: 10_000 * most };
    }
    case "detergent": {
      const { percent, by, density_kg_l = 1, undilutedDensity_kg_l = 1 } = stock;
      return exactly(by === "volume" ? percent : (percent * density_kg_l) / undilutedDensity_kg_l);
    }
    case "acid":
      return exactly((10 * stock.percent * stock.density_kg_l) / molarMass_g_mol[stock.acid]);
  }
}

function exactly(strength: number): StrengthBounds {
  return { least: strength, most: strength };
}

/** Available chlorine of the label, grams in 100 ml. */
export function chlorinePercent(stock: HypochloriteStock): number {
  switch (stock.meaning) {
    case "NaOCl by mass":
      return stock.percent * chlorineInHypochlorite * stock.density_kg_l;
    case "available chlorine by mass":
      return stock.percent * stock.density_kg_l;
    case "available chlorine by volume":
      return stock.percent;
  }
}
