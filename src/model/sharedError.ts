// An error that several observations share. The line of evidence that uses it declares it; it has one slot of the state.
import type { Unit } from "./unit.js";

export interface SharedError {
  /** Unique among all lines. */
  readonly name: string;
  readonly unit: Unit | "dbar" | "times";
  /** Mean and standard deviation before the first cast. */
  readonly prior: { readonly mean: number; readonly sd: number };
  /** How it passes from cast to cast, unless its line gives another passage for a cast. */
  readonly passage: Passage;
  /** Standard deviation when it is redrawn; absent if it is never redrawn, or is redrawn with 0. */
  readonly noise?: NoiseParameter;
}

/** A standard deviation of the model that may be estimated from a cruise. */
export interface NoiseParameter {
  readonly usual: number;
  /** Standard deviation of ln(value of the cruise / usual value); absent if it is not estimated. */
  readonly logSd?: number;
}

/** From one cast to the next. */
type Passage =
  /** The error stays the same. */
  | { readonly kind: "kept" }
  /** A new error, independent of the last; its variance is that of the error's own noise unless one is given. */
  | { readonly kind: "redrawn"; readonly variance?: number }
  /** The same error plus a random step of this variance. */
  | { readonly kind: "walked"; readonly variance: number };

/** By name of the shared error, for one cast. */
export type Passages = Readonly<Record<string, Passage>>;
