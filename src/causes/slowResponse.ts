// The effect of a slow response on the observations of the cells. Readings taken on the move in strong gradients are off;
// readings in calm water and at bottle stops are not.
import type { CellName } from "../cast/cast.js";
import type { Proposal } from "../model/cause.js";
import { type Observation, observesGainOf } from "../model/observation.js";

/** Standard deviations added to an observation of the cell, ppm: 0.004 and 0.06 in salinity (judgement). */
const some_ppm = 100;
const much_ppm = 1500;

/** Each is one function object, so that the observations are compressed once for each. */
const extraVariances = {
  primary: ofCells("primary"),
  secondary: ofCells("secondary"),
  both: ofCells("primary", "secondary"),
};

/** No effect on the evidence, some, or much: all equally probable (judgement). */
export function slowResponse(
  cause: string,
  cells: readonly [CellName, ...CellName[]],
  prior: number,
  logResponse: number,
): readonly Proposal[] {
  const doubts = cells.map((cell) => ({ cause, cell }));
  const third = { prior: prior / 3, coefficients: [], logResponse, doubts };
  const larger = extraVariances[cells.length > 1 ? "both" : cells[0]];
  return [third, ...larger.map((extraVariance) => ({ ...third, extraVariance }))];
}

function ofCells(...cells: readonly CellName[]) {
  return [some_ppm, much_ppm].map((off_ppm) => (observation: Observation) => {
    const { onTheMove } = observation;
    const reached = onTheMove === true && cells.some((cell) => observesGainOf(observation, cell));
    return reached ? off_ppm ** 2 : 0;
  });
}
