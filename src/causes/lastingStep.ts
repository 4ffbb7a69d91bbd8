// A lasting step of one property of a cell before a cast, with either sign: its offset, thermometer or pressure response.
import type { Proposal, ProposalContext } from "../model/cause.js";
import {
  type CellEvents,
  cellEvents,
  type Since,
  withCellEvents,
  withEvent,
} from "../model/eventHistory.js";
import type { CellSlot } from "../model/layout.js";

/** The property that steps, the chance per cast, and the standard deviation of the size in units of the slot. */
interface Step {
  readonly slot: CellSlot;
  readonly chance: number;
  readonly sd: number;
}

/** @param cause its name in the event history of the cell */
export function lastingStep(
  { cells, cast, castsSinceEvidence, events }: ProposalContext,
  cause: string,
  { slot, chance, sd }: Step,
): readonly Proposal[] {
  return cells.map((cell) => ({
    prior: chance * castsSinceEvidence,
    coefficients: [{ acts: [{ cell, slot, weight: 1 }], sd }],
    events: withCellEvents(
      events,
      cell,
      withEvent(cellEvents(events, cell), cause, { cast, when: "before" }),
    ),
  }));
}

/** The onset of a cause whose steps came on this cruise; undefined if it was there from the start. */
export function onsetOfStep(
  { onsetByCause }: CellEvents,
  cause: string,
): { readonly kind: "step"; readonly since: Since } | undefined {
  const since = onsetByCause?.[cause];
  return since?.when === "before" || since?.when === "within" ? { kind: "step", since } : undefined;
}
