// The proposals of a cast in combination: an event of a cell, and doubts about the evidence of the cast.
import type { CellName } from "../cast/cast.js";
import { causeNamed } from "../causes/index.js";
import type { Coefficient, Proposal } from "../model/cause.js";

/**
 * An event with at most one doubt. A doubt changes no state before its coefficients. Most combinations are improbable, so their
 * joint proposal is made only if it is kept.
 */
export interface Combination {
  readonly event: Proposal;
  readonly doubt?: Proposal;
  readonly prior: number;
}

/**
 * Combine one event of a cell, or none, with at most two of these: a doubt about the references; one about the water or the
 * response of the sensors; a lasting change of a reference. A transient is never combined with a doubt about the references,
 * because the references show what the transient left.
 * @param least skip proposals with a smaller prior
 * @returns the combinations, and the sum of all priors, including the skipped ones
 */
export function combine(given: readonly Proposal[], least: number) {
  const events = given.filter(({ doubts }) => doubts === undefined);
  const doubts = given.filter(({ doubts }) => doubts !== undefined);
  const lasting = doubts.filter(isLasting);
  const references = doubts.filter(isAboutReferences);
  const others = doubts.filter((doubt) => !(isLasting(doubt) || isAboutReferences(doubt)));
  const sum = (some: readonly Proposal[]) => some.reduce((all, { prior }) => all + prior, 0);
  const beside = others.filter((doubt) => eventCells(doubt).length === 0);
  const pairs = [
    ...references.flatMap((one) => beside.map((other) => together(one, other))),
    ...lasting.flatMap((one) => [...references, ...others].map((other) => together(one, other))),
  ];
  const total = sum(events) * (1 + sum(doubts) + sum(pairs));
  // A doubt that acts on a cell is a transient of that one.
  const onCells = [...doubts, ...pairs].map((doubt) => ({ doubt, cell: eventCells(doubt)[0] }));
  const combinations: Combination[] = events.map((event) => ({ event, prior: event.prior }));
  for (const event of events) {
    const alone = new Map<CellName, Proposal | undefined>();
    const beside = (cell: CellName) => {
      if (!alone.has(cell)) alone.set(cell, withoutEventSlot(event, cell));
      return alone.get(cell);
    };
    for (const { doubt, cell } of onCells) {
      const prior = event.prior * doubt.prior;
      if (prior < least * total) continue;
      const own = cell === undefined ? event : beside(cell);
      if (own !== undefined) combinations.push({ event: own, doubt, prior });
    }
  }
  return { combinations, total };
}

export function jointProposal({ event, doubt }: Combination): Proposal {
  return doubt === undefined ? event : together(event, doubt);
}

/** A change of a reference that is no doubt about this cast alone. */
function isLasting({ doubts }: Proposal): boolean {
  return doubts?.length === 0;
}

/** These last as long as the error of the references. */
function isAboutReferences({ doubts = [] }: Proposal): boolean {
  return doubts.some(({ cause }) => causeNamed(cause).doubtLastsWith !== undefined);
}

function together(one: Proposal, other: Proposal): Proposal {
  return {
    ...one,
    ...other,
    prior: one.prior * other.prior,
    coefficients: [...one.coefficients, ...other.coefficients],
    places: { ...one.places, ...other.places },
    logResponse: (one.logResponse ?? 0) + (other.logResponse ?? 0),
    doubts: [...(one.doubts ?? []), ...(other.doubts ?? [])],
  };
}

/**
 * The event, without the slot `event` of a cell that also has a transient: the transient needs that slot. If both used it, only
 * their sum would be constrained not to be positive, and a film could read salty beside a larger transient. A film has slots of
 * its own, so it needs no `event`.
 * @returns undefined if the event is not a film, or if it is in both cells: such an event would explain whatever the transient
 *   does not fit
 */
function withoutEventSlot(event: Proposal, cell: CellName): Proposal | undefined {
  const cells = eventCells(event);
  if (!cells.includes(cell)) return event;
  if (cells.some((other) => other !== cell)) return undefined;
  const coefficients: Coefficient[] = [];
  for (const coefficient of event.coefficients) {
    const acts = coefficient.acts.filter((act) => !isEventOf(act, cell));
    if (acts.length === coefficient.acts.length) coefficients.push(coefficient);
    else if (acts.some((act) => "cell" in act && act.cell === cell && act.slot === "filmUp"))
      coefficients.push({ ...coefficient, acts });
    else return undefined;
  }
  return { ...event, coefficients };
}

/** The cells on whose `event` slot a proposal acts. */
function eventCells({ coefficients }: Proposal): readonly CellName[] {
  return coefficients.flatMap(({ acts }) =>
    acts.flatMap((act) => ("cell" in act && isEventOf(act, act.cell) ? [act.cell] : [])),
  );
}

function isEventOf(act: Coefficient["acts"][number], cell: CellName): boolean {
  return "cell" in act && act.cell === cell && act.slot === "event";
}
