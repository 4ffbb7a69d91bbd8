// The result of a dilution: amounts that a person can measure, the steps and the cautions, as plain data.
import type { Stock, unitOf } from "./stock.js";

/** One mixing: C1 V1 = C2 V2, exactly. */
export interface DilutionStage {
  /** `stock`, or the bottle of the stage before. */
  readonly from: "stock" | "first bottle";
  readonly take_ml: number;
  readonly water_ml: number;
  readonly makes_ml: number;
  /** Concentration of the result, in the unit of the dilution, from the least strength of the stock. */
  readonly concentration: number;
}

export interface Dilution {
  readonly kind: Stock["kind"];
  /** One stage, or two if the amount of the stock would be too small to measure. */
  readonly stages: readonly DilutionStage[];
  readonly makes_ml: number;
  /**
   * Least concentration of the result. Measurable amounts differ from the required ones by 10 % at most: hypochlorite is
   * never weaker, acid never stronger.
   */
  readonly concentration: number;
  /** Largest concentration of the result: more than `concentration` if the stock has aged by an unknown amount. */
  readonly concentrationAtMost: number;
  readonly unit: (typeof unitOf)[Stock["kind"]];
  /** Strength of the stock used for the amounts: its least possible strength. */
  readonly stockStrength: number;
  readonly stockStrengthAtMost: number;
  readonly steps: readonly string[];
  readonly cautions: readonly string[];
  /** Assumptions. */
  readonly notes: readonly string[];
}
