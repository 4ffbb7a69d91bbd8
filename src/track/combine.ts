// The proposals of a cast in combination: an event of a cell, and doubts about the evidence of the cast.
import { sum } from "d3-array";
import type { CellName } from "../cast/cast.js";
import { causeNamed } from "../causes/index.js";
import type { Coefficient, Proposal } from "../model/cause.js";

/**
 * An event, and doubts about the evidence. Most combinations are improbable, so their joint proposal is made only if it is kept. A
 * doubt changes no state before its coefficients.
 */
export interface Combination {
  readonly parts: readonly [Proposal, ...Proposal[]];
  /** Relative to all combinations, including the skipped ones. */
  readonly logPrior: number;
}

/**
 * Combine one event of a cell, or none, with at most two of these: a doubt about the references; one about the water or the
 * response of the sensors; a lasting change of a reference. A transient is never combined with a doubt about the references,
 * because the references show what the transient left.
 * @param least skip combinations with a smaller prior
 */
export function combine(given: readonly Proposal[], least: number): readonly Combination[] {
  const events = given.filter(({ doubts }) => doubts === undefined);
  const singles = given.filter(({ doubts }) => doubts !== undefined);
  const lasting = singles.filter(isLasting);
  const onThisCast = singles.filter((doubt) => !isLasting(doubt));
  const references = onThisCast.filter(isAboutReferences);
  const beside = onThisCast.filter(
    (doubt) => !isAboutReferences(doubt) && eventCells(doubt).length === 0,
  );
  const alone = singles.map((one) => [one]);
  const pairs = [
    ...references.flatMap((one) => beside.map((other) => [one, other])),
    ...lasting.flatMap((one) => onThisCast.map((other) => [one, other])),
  ];
  const doubts = [[], ...alone, ...pairs].map((parts) => ({
    parts,
    prior: priorOf(parts),
    // A doubt that acts on a cell is a transient of that one.
    cell: parts.flatMap(eventCells)[0],
  }));
  const total = sum(events, (one) => one.prior) * (1 + sum(alone, priorOf) + sum(pairs, priorOf));
  const combinations: Combination[] = [];
  for (const event of events) {
    const leastPrior = (least * total) / event.prior;
    for (const { parts, prior, cell } of doubts) {
      if (prior < leastPrior) continue;
      const own = cell === undefined ? event : withoutEventSlot(event, cell);
      if (own !== undefined)
        combinations.push({
          parts: [own, ...parts],
          logPrior: Math.log((event.prior * prior) / total),
        });
    }
  }
  return combinations;
}

function priorOf(parts: readonly Proposal[]): number {
  return parts.reduce((product, { prior }) => product * prior, 1);
}

export function jointProposal(parts: Combination["parts"]): Proposal {
  return parts.reduce(together);
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
