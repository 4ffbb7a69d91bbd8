// What stands on the shelf, and how strong it is.
import { type StrengthBounds, strengthAfter } from "./hypochloriteAge.js";
import { checkStock } from "./plausibleStock.js";

/** Three things are called "per cent" on hypochlorite labels: which is meant must be said. */
export type HypochloriteStock = {
  readonly kind: "hypochlorite";
  readonly percent: number;
  /** Since it was made. */
  readonly age_days?: number;
  /** Temperature it was kept at, degree C; 10 to 30 where absent. */
  readonly kept_C?: number;
} & (
  | {
      readonly meaning: "NaOCl by mass" | "available chlorine by mass";
      readonly density_kg_l: number;
    }
  /** Grams of available chlorine in 100 ml: the trade per cent. */
  | { readonly meaning: "available chlorine by volume" }
);

export interface DetergentStock {
  readonly kind: "detergent";
  /** 100 where undiluted. */
  readonly percent: number;
  readonly by: "volume" | "mass";
  /** Of the stock; 1 where absent. */
  readonly density_kg_l?: number;
  /** Of the undiluted detergent; 1 where absent. Only where the per cent is by mass. */
  readonly undilutedDensity_kg_l?: number;
}

export interface AcidStock {
  readonly kind: "acid";
  readonly acid: keyof typeof molarMass_g_mol;
  /** By mass. */
  readonly percent: number;
  readonly density_kg_l: number;
}

export type Stock = HypochloriteStock | DetergentStock | AcidStock;

/** From the standard atomic weights. */
const molarMass_g_mol = { hydrochloric: 36.461, acetic: 60.052 } as const;

/** Available chlorine (as Cl2) in NaOCl, by mass: 70.906 / 74.442. */
export const chlorineInHypochlorite = 70.906 / 74.442;

/** Unit of a solution's concentration, by kind. "ppm" of hypochlorite is mg of available chlorine in a litre. */
export const unitOf = {
  hypochlorite: "ppm available chlorine",
  detergent: "% by volume",
  acid: "mol/l",
} as const;

/**
 * Strength of the stock as it stands today, in the unit of its kind: two bounds, which differ where it has aged.
 * @throws DilutionRefused where a figure of the stock is missing or not plausible
 * @example stockStrength({ kind: "hypochlorite", percent: 5, meaning: "available chlorine by volume" }) // { least: 50000, most: 50000 }
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
      // 1 % by volume is 10 g, or 10 000 mg, in a litre.
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
