// A stock solution, as on its label.

/** "Per cent" has three meanings on hypochlorite labels, so the meaning must be given. */
export type HypochloriteStock = {
  readonly kind: "hypochlorite";
  readonly percent: number;
  /** Time since it was made. */
  readonly age_days?: number;
  /** Storage temperature, degree C; 10 to 30 if absent. */
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
  /** 100 if undiluted. */
  readonly percent: number;
  readonly by: "volume" | "mass";
  /** Density of the stock; 1 if absent. */
  readonly density_kg_l?: number;
  /** Density of the undiluted detergent; 1 if absent. Only if the per cent is by mass. */
  readonly undilutedDensity_kg_l?: number;
}

export interface AcidStock {
  readonly kind: "acid";
  readonly acid: keyof typeof molarMass_g_mol;
  /** Per cent by mass. */
  readonly percent: number;
  readonly density_kg_l: number;
}

export type Stock = HypochloriteStock | DetergentStock | AcidStock;

/** HCl and CH3COOH, from the standard atomic weights (from memory). */
export const molarMass_g_mol = { hydrochloric: 36.461, acetic: 60.052 } as const;

/** Available chlorine (as Cl2) in NaOCl, by mass: molar masses of Cl2 and NaOCl (from memory). */
export const chlorineInHypochlorite = 70.906 / 74.442;

/** Unit of a solution's concentration, by kind. "ppm" of hypochlorite is mg of available chlorine in a litre. */
export const unitOf = {
  hypochlorite: "ppm available chlorine",
  detergent: "% by volume",
  acid: "mol/l",
} as const;
