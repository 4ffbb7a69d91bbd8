// An error that several observations share: declared by the line of evidence that brings it, one slot of the state.
import type { Unit } from "./unit.js";

export interface SharedError {
  /** Unique among all lines. */
  readonly name: string;
  readonly unit: Unit | "dbar" | "times";
  /** Mean and standard deviation before the first cast. */
  readonly prior: { readonly mean: number; readonly sd: number };
  /** How it passes from cast to cast, where its line says nothing else of the cast. */
  readonly passage: Passage;
  /** Standard deviation with which it is redrawn; absent where it is never redrawn, or with 0. */
  readonly noise?: NoiseParameter;
}

/** A standard deviation of the model, which a cruise may teach. */
export interface NoiseParameter {
  readonly usual: number;
  /** Standard deviation of the logarithm of a cruise's own over the usual; absent where it is not learnt. */
  readonly logSd?: number;
}

/** From one cast to the next. */
type Passage =
  /** The same error goes on. */
  | { readonly kind: "kept" }
  /** A new error, independent of the last; with the error's own noise where no variance is given. */
  | { readonly kind: "redrawn"; readonly variance?: number }
  /** The same error, changed by a random step of this variance. */
  | { readonly kind: "walked"; readonly variance: number };

/** By name of the shared error, for one cast. */
export type Passages = Readonly<Record<string, Passage>>;
