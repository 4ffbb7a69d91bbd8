// A clean gain that drifts: from a cast on it changes in proportion to time, and cleaning does not stop it. Reasons: electronics
// that warm up or age, electrodes that wear.
import type { CellName } from "../cast/cast.js";
import type { Proposal, ProposalContext } from "../model/cause.js";
import { cellEvents, changesSteadily, withCellEvents } from "../model/eventHistory.js";
import { commonEvent } from "./commonEvent.js";

/**
 * Rates, ppm a day: scales of half-normals. A cell of one published cruise drifted by 0.003 in salinity a month, 2.6 ppm a day
 * [CruiseReports2022]. A faulty cell drifts faster (sizes and shares: judgement).
 */
const rates = [
  { sd: 4, share: 0.4 },
  { sd: 20, share: 0.3 },
  { sd: 80, share: 0.3 },
];
/**
 * Probabilities per cast (judgement). A cell that reads fresher from cast to cast is fouled much more often than it drifts. A film
 * cannot make it read saltier.
 */
const chance = { salty: 0.004, bothSalty: 0.002, fresh: 0.001 };

export function drifts(context: ProposalContext): readonly Proposal[] {
  const { cells } = context;
  return [
    ...cells.flatMap((cell) => [
      ...drifting(context, [cell], "salty", chance.salty),
      ...drifting(context, [cell], "fresh", chance.fresh),
    ]),
    ...(cells.length > 1 ? drifting(context, cells, "salty", chance.bothSalty) : []),
  ];
}

function drifting(
  { cast, events, castsSinceEvidence }: ProposalContext,
  cells: readonly CellName[],
  towards: "salty" | "fresh",
  often: number,
): readonly Proposal[] {
  if (cells.some((cell) => changesSteadily(cellEvents(events, cell)))) return [];
  const since = { cast, when: "before" } as const;
  const drifted = cells.reduce(
    (all, cell) => withCellEvents(all, cell, { ...cellEvents(all, cell), drift: since }),
    events,
  );
  // The coefficient is not positive.
  const weights = { cleanRate: towards === "salty" ? -1 : 1, event: 1 };
  return rates.map(({ sd, share }) => ({
    prior: often * share * castsSinceEvidence,
    coefficients: commonEvent(cells, weights, { sd, notPositive: true }),
    events: drifted,
  }));
}
