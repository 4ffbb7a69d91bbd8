// The effect of a slow response on the observations of the cell. Readings taken on the move in strong gradients are off;
// readings in calm water and at bottle stops are not.
import type { CellName } from "../cast/cast.js";
import type { Proposal } from "../model/cause.js";
import { type Observation, observesGainOf } from "../model/observation.js";

/** Standard deviations added to an observation of the cell, ppm: 0.004 and 0.06 in salinity (judgement). */
const some_ppm = 100;
const much_ppm = 1500;

/** By cell; one function object each, so that the observations of a cell are compressed once. */
const extraVariances: Readonly<
  Record<CellName, readonly ((observation: Observation) => number)[]>
> = {
  primary: [extraVarianceOf("primary", some_ppm), extraVarianceOf("primary", much_ppm)],
  secondary: [extraVarianceOf("secondary", some_ppm), extraVarianceOf("secondary", much_ppm)],
};

/** No effect on the evidence, some, or much: all equally probable (judgement). */
export function slowResponse(
  cause: string,
  cell: CellName,
  prior: number,
  logResponse: number,
): readonly Proposal[] {
  const third = { prior: prior / 3, coefficients: [], logResponse, doubt: { cause, cell } };
  return [third, ...extraVariances[cell].map((extraVariance) => ({ ...third, extraVariance }))];
}

function extraVarianceOf(cell: CellName, off_ppm: number) {
  return (observation: Observation) =>
    observation.onTheMove === true && observesGainOf(observation, cell) ? off_ppm ** 2 : 0;
}
