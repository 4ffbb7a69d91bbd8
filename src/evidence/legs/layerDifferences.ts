// The differences between the legs in thin layers, and their terms beside a step: thermal lag, and the salinity that
// balances temperature differences. All terms are linear with normal priors.
import {
  dot,
  type Orthonormal,
  orthonormal,
  type PriorTerm,
} from "../../statistics/orthonormal.js";
import type { LegNoise } from "./legNoise.js";
import { type Whitening, whitened, whitening } from "./whitening.js";

/** One value for each thin layer in every column. */
export interface LayerDifferences {
  /** Up minus down, ppm. */
  readonly difference: Float64Array;
  /** Unit: dbar. */
  readonly pressure: Float64Array;
  /** Thermal lag of the fitted course, and of other courses; columns in ppm for the usual lag. */
  readonly lag: readonly PriorTerm[];
  readonly otherLag: readonly PriorTerm[];
  /** Salinity that balances the temperature differences, ppm. */
  readonly balanced: PriorTerm;
  /** Correlation length of the differences, in layers. */
  readonly reach: number;
}

export interface FittedStep {
  readonly ppm: number;
  /** The layer that contains the step, and the share of the layer above it. */
  readonly layer: number;
  readonly part: number;
  /** The fitted lag and balanced salinity, ppm. */
  readonly lagged: Float64Array;
  readonly balanced: Float64Array;
}

/** The share of layer k above the step. */
export function shareAbove(k: number, { layer, part }: Pick<FittedStep, "layer" | "part">): number {
  return k < layer ? 1 : k === layer ? part : 0;
}

/** The differences minus the step and minus the fitted terms, ppm. */
export function withoutStep({ difference }: LayerDifferences, step: FittedStep): Float64Array {
  const { ppm, lagged, balanced } = step;
  return difference.map((d, k) => d - lagged[k]! - balanced[k]! - shareAbove(k, step) * ppm);
}

/** The whitened differences, and the terms fitted to them without a step. */
export interface WithoutStep {
  readonly filter: Whitening;
  readonly y: Float64Array;
  readonly terms: Orthonormal;
  /** Inner product of y with each unit of the terms. */
  readonly explained: readonly number[];
}

/** Units are whitened columns; their factors refer to the given terms. */
export function whitenedTerms(terms: readonly PriorTerm[], filter: Whitening): Orthonormal {
  return orthonormal(terms.map((term) => ({ ...term, column: whitened(filter, term.column) })));
}

export function fitWithoutStep(
  { difference, lag, balanced }: LayerDifferences,
  noise: LegNoise,
): WithoutStep {
  const filter = whitening(noise);
  const y = whitened(filter, difference);
  const terms = whitenedTerms([...lag, balanced], filter);
  return { filter, y, terms, explained: terms.units.map((unit) => dot(unit, y)) };
}

/** Natural logarithm of the evidence ratio of the terms against no terms. */
export function logEvidence({ units, log }: Orthonormal, y: Float64Array): number {
  return units.reduce((sum, unit) => sum + 0.5 * dot(unit, y) ** 2, log);
}
