// The differences between the legs in thin layers, and what beside a step may be in them: thermal lag, and salinity that
// balances the wiggles of temperature. All terms are linear with normal priors.
import {
  dot,
  type Orthonormal,
  orthonormal,
  type PriorTerm,
} from "../../statistics/orthonormal.js";
import type { LegNoise } from "./legNoise.js";
import { type Whitening, whitened, whitening } from "./whitening.js";

/** One value a thin layer in every column. */
export interface LayerDifferences {
  /** Up minus down, ppm. */
  readonly difference: Float64Array;
  /** dbar. */
  readonly pressure: Float64Array;
  /** Thermal lag of the fitted course, and of other courses; columns in ppm for the usual lag. */
  readonly lag: readonly PriorTerm[];
  readonly otherLag: readonly PriorTerm[];
  /** Salinity that balances the temperature differences, ppm. */
  readonly balanced: PriorTerm;
  /** Layers over which the differences forget themselves. */
  readonly reach: number;
}

export interface Step {
  readonly ppm: number;
  /** It lies in this layer, so much of it being above. */
  readonly layer: number;
  readonly part: number;
  /** The lag and the balanced salinity that are fitted beside it, ppm. */
  readonly lagged: Float64Array;
  readonly balanced: Float64Array;
}

/** The share of layer k that lies above the step. */
export function shareAbove(k: number, { layer, part }: Pick<Step, "layer" | "part">): number {
  return k < layer ? 1 : k === layer ? part : 0;
}

/** The differences less the step and less the terms fitted beside it, ppm. */
export function withoutStep({ difference }: LayerDifferences, step: Step): Float64Array {
  const { ppm, lagged, balanced } = step;
  return difference.map((d, k) => d - lagged[k]! - balanced[k]! - shareAbove(k, step) * ppm);
}

/** The whitened differences, and the terms without a step fitted to them. */
export interface WithoutStep {
  readonly filter: Whitening;
  readonly y: Float64Array;
  readonly terms: Orthonormal;
  /** Inner product of y with each unit of the terms. */
  readonly explained: readonly number[];
}

/** Units are whitened columns; their factors refer to the terms as given. */
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

/** Natural logarithm of the evidence for the terms against nothing. */
export function logEvidence({ units, log }: Orthonormal, y: Float64Array): number {
  return units.reduce((sum, unit) => sum + 0.5 * dot(unit, y) ** 2, log);
}
