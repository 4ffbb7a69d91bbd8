// The cause that a hypothesis gives for the state of a cell.
import type { CellName } from "../cast/cast.js";
import { cellEvents } from "../model/eventHistory.js";
import type { Hypothesis } from "../model/hypothesis.js";
import { type CellSlot, cellIndex, type Layout } from "../model/layout.js";
import { type CauseName, causes } from "./index.js";

export function causeOf(
  layout: Layout,
  { events, state }: Pick<Hypothesis, "events" | "state">,
  cell: CellName,
): CauseName {
  const ours = (events.doubts ?? []).filter((doubt) => (doubt.cell ?? cell) === cell);
  const at = (slot: CellSlot) => cellIndex(layout, cell, slot);
  const named = {
    events: cellEvents(events, cell),
    isDoubted: (cause: string) => ours.some((doubt) => doubt.cause === cause),
    mean: (slot: CellSlot) => state.mean[at(slot)]!,
    standardDeviation: (slot: CellSlot) =>
      Math.sqrt(Math.max(0, state.covariance[at(slot) * (layout.size + 1)]!)),
  };
  return causes.find(({ matches }) => matches(named))!.name;
}
