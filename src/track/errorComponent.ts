// The errors of a cell and its thermometer on a cast after smoothing: gain, pressure response, thermometer and offset, with
// their covariance. Where two of them cancel in the data, only their sum is known.
import type { CellName, LegName } from "../cast/cast.js";
import { gainRow, gainSensitivity, slotRow, type WaterRead } from "../model/designRow.js";
import type { Layout } from "../model/layout.js";
import type { Entries } from "../model/past.js";
import type { Mixture } from "../statistics/mixture.js";

/** Gain at atmospheric pressure, ppm; pressure response, ppm per 1000 dbar; thermometer, mK; offset, uS/cm. */
const errorTerms = ["gain", "pressure", "thermometer", "offset"] as const;

/** Means and covariances in the order of `errorTerms`. */
export interface ErrorMoments {
  readonly mean: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}

export interface ErrorComponent extends ErrorMoments {
  readonly weight: number;
}

/** The rows that smoothing keeps for a cell and a cast: the gain of each leg, then the other error terms. */
export function smoothedRows(layout: Layout, cell: CellName): readonly Float64Array[] {
  return [
    gainRow(layout, cell, "down"),
    gainRow(layout, cell, "up"),
    slotRow(layout, cell, "pressure"),
    slotRow(layout, cell, "thermometer"),
    slotRow(layout, cell, "offset"),
  ];
}

/** @param block index of the cell: which block of rows from `smoothedRows` */
export function errorComponent(
  { mean, covariance, block: size }: Entries,
  block: number,
  leg: LegName,
  weight: number,
): ErrorComponent {
  const own = [leg === "down" ? 0 : 1, 2, 3, 4];
  return {
    weight,
    mean: own.map((i) => mean[block * size + i]!),
    covariance: own.map((i) => own.map((j) => covariance[(block * size + i) * size + j]!)),
  };
}

/** The effect of one unit of each of `errorTerms` on a reading in given water, as a gain, ppm per unit. */
export function errorWeights({ pressure_dbar, ...water }: WaterRead): readonly number[] {
  const { perMillikelvin, perMicrosiemens } = gainSensitivity({ pressure_dbar, water });
  return [1, pressure_dbar / 1000, perMillikelvin, perMicrosiemens];
}

/** Mean and variance of the sum of the terms, each times its weight. */
export function errorSum(
  { mean, covariance }: ErrorMoments,
  weights: readonly number[],
): { readonly mean: number; readonly variance: number } {
  let [sum, variance] = [0, 0];
  for (const [i, weight] of weights.entries()) {
    sum += weight * mean[i]!;
    for (const [j, other] of weights.entries()) variance += weight * other * covariance[i]![j]!;
  }
  return { mean: sum, variance: Math.max(0, variance) };
}

/** The sum over all hypotheses. */
export function errorMixture(
  components: readonly ErrorComponent[],
  weights: readonly number[],
): Mixture {
  return components.map((one) => ({ weight: one.weight, ...errorSum(one, weights) }));
}

/** Mean and covariance over all hypotheses. */
export function errorMoments(components: readonly ErrorComponent[]): ErrorMoments {
  const mean = errorTerms.map((_, i) =>
    components.reduce((sum, one) => sum + one.weight * one.mean[i]!, 0),
  );
  const covariance = errorTerms.map((_, i) =>
    errorTerms.map((_, j) =>
      components.reduce((sum, { weight, mean: own, covariance: within }) => {
        const between = (own[i]! - mean[i]!) * (own[j]! - mean[j]!);
        return sum + weight * (within[i]![j]! + between);
      }, 0),
    ),
  );
  return { mean, covariance };
}
