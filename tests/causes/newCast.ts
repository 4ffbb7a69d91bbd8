// What a cause is asked about: a new cast of one cell with no events so far.
import type { ProposalContext } from "../../src/model/cause.js";

export function newCast(changes: Partial<ProposalContext> = {}): ProposalContext {
  return {
    cast: "004",
    cells: ["primary"],
    lines: new Map(),
    unchangedErrors: new Set(),
    onsets: {},
    excursions: [],
    response: {},
    castsSinceEvidence: 1,
    inWater_days: 0,
    onDeck_days: 0,
    events: { cells: {} },
    ...changes,
  };
}
