// Removes from readings all terms but a film: linear terms with normal priors.
import { addTo, orthonormal } from "../../statistics/orthonormal.js";
import type { PathRows } from "./pathRows.js";

/** Rows whose background is orthonormalised and subtracted from the values. */
export interface CleanRows extends PathRows {
  /** Value minus the part explained by the background. */
  readonly clean: Float64Array;
  /** Background columns for which X'WX + prior precision is the unit matrix. */
  readonly unit: readonly Float64Array[];
  /** Natural logarithm of the evidence ratio of the background against none. */
  readonly log: number;
}

export function withoutBackground(rows: PathRows): CleanRows {
  const { value_ppm, weight, background } = rows;
  const inner = (a: Float64Array, b: Float64Array) => {
    let sum = 0;
    for (let i = 0; i < weight.length; i++) sum += weight[i]! * a[i]! * b[i]!;
    return sum;
  };
  const { units: unit, log: ofPriors } = orthonormal(background, inner);
  const clean = Float64Array.from(value_ppm);
  let log = ofPriors;
  // The rows of the priors have the value 0, and enter no sum for a film.
  for (const own of unit) {
    const share = inner(own, value_ppm);
    log += 0.5 * share * share;
    addTo(clean, -share, own);
  }
  return { ...rows, clean, unit, log };
}
