// What a cell that answers slowly does to its own observations: in strong gradients what is read on the move is off, in calm water
// and at the stops of bottles they are not.
import type { CellName } from "../cast/cast.js";
import type { Proposal } from "../model/cause.js";
import { type Observation, seesGainOf } from "../model/observation.js";

/** Standard deviations of what it adds to an observation of the cell, ppm: 0.004 and 0.06 in salinity (judgement). */
const some_ppm = 100;
const much_ppm = 1500;

/** By cell; one function each, so that its observations are brought together once. */
const slow: Readonly<Record<CellName, readonly ((observation: Observation) => number)[]>> = {
  primary: [widening("primary", some_ppm), widening("primary", much_ppm)],
  secondary: [widening("secondary", some_ppm), widening("secondary", much_ppm)],
};

/** Not in the evidence, some, or much: one as probable as the other (judgement). */
export function slowAnswer(
  cause: string,
  cell: CellName,
  prior: number,
  logResponse: number,
): readonly Proposal[] {
  const third = { prior: prior / 3, coefficients: [], logResponse, doubt: { cause, cell } };
  return [third, ...slow[cell].map((extraVariance) => ({ ...third, extraVariance }))];
}

function widening(cell: CellName, off_ppm: number) {
  return (observation: Observation) =>
    observation.onTheMove === true && seesGainOf(observation, cell) ? off_ppm ** 2 : 0;
}
