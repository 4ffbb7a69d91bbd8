// What a cell that answers slowly does to its own observations: in strong gradients legs and pair are off, in calm water
// and at the stops of bottles they are not.
import type { CellName } from "../cast/cast.js";
import type { Observation } from "../evidence/evidence.js";
import type { Proposal } from "./cause.js";

/** Standard deviation of what it adds to an observation of the cell, ppm: 0.004 in salinity, over a cast (judgement). */
const off_ppm = 100;

/** By cell; one function each, so that its observations are brought together once. */
const slow: Readonly<Record<CellName, (observation: Observation) => number>> = {
  primary: widening("primary"),
  secondary: widening("secondary"),
};

/** Where it shows in the evidence and where it does not: one as probable as the other. */
export function seenOrNot(cell: CellName, proposal: Proposal): readonly Proposal[] {
  const half = { ...proposal, prior: proposal.prior / 2 };
  return [half, { ...half, extraVariance: slow[cell] }];
}

function widening(cell: CellName) {
  return ({ terms, line }: Observation) =>
    (line === "legs" || line === "pair") && terms.some((term) => term.cell === cell)
      ? off_ppm ** 2
      : 0;
}
