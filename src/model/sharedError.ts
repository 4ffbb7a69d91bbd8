// An error that several observations share. The line of evidence that uses it declares it; it has one slot of the state.
import type { Unit } from "./unit.js";

export interface SharedError {
  /** Unique among all lines. */
  readonly name: string;
  readonly unit: Unit | "dbar" | "times";
  /** Mean and standard deviation before the first cast; each is 0 if absent. */
  readonly prior?: { readonly mean?: number; readonly sd: number };
  /** How it changes from cast to cast, unless its line states another change for a cast. */
  readonly evolution: ErrorEvolution;
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
export type ErrorEvolution =
  /** The error stays the same. */
  | { readonly kind: "constant" }
  /** A new error, independent of the last; its variance is that of the error's own noise unless one is given. */
  | { readonly kind: "independent"; readonly variance?: number }
  /** This share of the error stays and the rest is new, so that its variance is that of its own noise in the long run. */
  | { readonly kind: "partly-new"; readonly kept: number }
  /** The same error plus a random step of this variance. */
  | { readonly kind: "random-walk"; readonly variance: number };

/** By name of the shared error, for one cast. */
export type ErrorEvolutions = Readonly<Record<string, ErrorEvolution>>;
