// What a cell that answers slowly does to its own observations: where temperature changes they are off, on either leg.
import type { CellName } from "../cast/cast.js";
import type { Observation } from "../evidence/evidence.js";

/** Standard deviation of what it adds to an observation of the cell, ppm: 0.004 in salinity, over a cast (judgement). */
const off_ppm = 100;

/** By cell; one function each, so that its observations are brought together once. */
export const slowAnswer: Readonly<Record<CellName, (observation: Observation) => number>> = {
  primary: widening("primary"),
  secondary: widening("secondary"),
};

function widening(cell: CellName) {
  return ({ terms, line }: Observation) =>
    line !== "temperature-pair" && terms.some((term) => term.cell === cell) ? off_ppm ** 2 : 0;
}
