// A solution worked out: amounts that a person can measure, the steps and the cautions, as plain data.
import type { Stock, unitOf } from "./stock.js";

/** One mixing: C1 V1 = C2 V2, exactly. */
export interface DilutionStage {
  /** `stock`, or the bottle of the stage before. */
  readonly from: "stock" | "first bottle";
  readonly take_ml: number;
  readonly water_ml: number;
  readonly makes_ml: number;
  /** Of what it makes, in the unit of the dilution, from the least that the stock may hold. */
  readonly concentration: number;
}

export interface Dilution {
  readonly kind: Stock["kind"];
  /** One, or two where the stock's amount would be too small to measure. */
  readonly stages: readonly DilutionStage[];
  readonly makes_ml: number;
  /**
   * What comes out, at least. Measurable amounts differ from what was wanted by 10 % at most: hypochlorite is never
   * weaker, acid never stronger.
   */
  readonly concentration: number;
  /** What comes out, at most: more than `concentration` where the stock has aged by an unknown amount. */
  readonly concentrationAtMost: number;
  readonly unit: (typeof unitOf)[Stock["kind"]];
  /** Strength of the stock that the amounts follow from: the least that it may hold. */
  readonly stockStrength: number;
  readonly stockStrengthAtMost: number;
  readonly steps: readonly string[];
  readonly cautions: readonly string[];
  /** What was assumed. */
  readonly notes: readonly string[];
}
