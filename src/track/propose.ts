// The new events possible at a cast: every hypothesis with every proposal of every cause, and the likelihoods.

import { group, sum } from "d3-array";
import { causes } from "../causes/index.js";
import type { Coefficient, Proposal, ProposalContext } from "../model/cause.js";
import { copyOf } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import type { Layout } from "../model/layout.js";
import type { Noise } from "../model/noise.js";
import { effectiveNumber } from "../statistics/effectiveNumber.js";
import { rowsFor } from "./castRows.js";
import { type Combination, combine, jointProposal } from "./combine.js";
import { directionAlong } from "./direction.js";
import { eachOnce } from "./eachOnce.js";
import { informationFor } from "./information.js";
import { logMarginal } from "./marginal.js";
import type { TrackedInput } from "./tracked.js";
import { changeState, directionOf, update } from "./update.js";

/**
 * Skip proposals with a smaller prior than this, even those of the best hypothesis (judgement: cost). A rare event together with
 * a rare doubt has about 1e-6.
 */
const leastLogPrior = Math.log(1e-6);
/** Skip proposals with a smaller posterior than this relative to the best, and all beyond this number (judgement: cost). */
const leastLogWeight = Math.log(1e-5);
const mostUpdated = 200;

/**
 * @param held  hypotheses at the start of the cast
 * @param since the time and the events since the casts before
 * @returns the hypotheses that are kept; their weights are not yet scaled
 */
export function propose(
  layout: Layout,
  held: readonly Hypothesis[],
  input: TrackedInput,
  since: Pick<ProposalContext, "castsSinceEvidence" | "unchangedErrors" | "onDeck_days">,
  noise: Noise,
): readonly Hypothesis[] {
  const lines = new Map(
    [...group(input.observations, ({ line }) => line)].map(([line, observations]) => [
      line,
      effectiveNumber(observations.map(({ variance }) => 1 / variance)),
    ]),
  );
  const rows = rowsFor(layout, input);
  const information = informationFor(layout, held);
  const candidates = held.flatMap((hypothesis) =>
    candidatesOf(layout, hypothesis, rows, information, noise, {
      cast: input.cast,
      cells: layout.cells,
      lines,
      onsets: input.onsets,
      excursions: input.excursions ?? [],
      response: input.response ?? {},
      inWater_days: input.path?.days ?? 0,
      ...since,
      events: hypothesis.events,
    }),
  );
  candidates.sort((a, b) => b.logWeight - a.logWeight);
  const best = candidates[0]?.logWeight ?? Number.NEGATIVE_INFINITY;
  return candidates
    .slice(0, mostUpdated)
    .filter(({ logWeight }) => logWeight > best + leastLogWeight)
    .map(({ hypothesis, parts, logPrior }) => {
      const proposal = jointProposal(parts);
      return update(layout, hypothesis, proposal, logPrior, rows([proposal]), noise);
    });
}

interface Candidate {
  readonly hypothesis: Hypothesis;
  readonly parts: Combination["parts"];
  readonly logPrior: number;
  /** A combination with its log weight among all: enough to decide whether to keep it. */
  readonly logWeight: number;
}

function candidatesOf(
  layout: Layout,
  hypothesis: Hypothesis,
  rows: ReturnType<typeof rowsFor>,
  information: ReturnType<typeof informationFor>,
  noise: Noise,
  context: ProposalContext,
): readonly Candidate[] {
  const least = Math.exp(leastLogPrior - hypothesis.logWeight);
  const proposals = causes.flatMap((cause) => cause.propose(context));
  const { mean, covariance } = hypothesis.state;
  // Events with the same change of the state share its object.
  const after = eachOnce((_: Proposal["shed"] | Proposal["redrawnClean"], event: Proposal) => {
    const state = copyOf({ mean, covariance });
    changeState(layout, state, event, noise);
    return information(state);
  });
  const direction = eachOnce((coefficient: Coefficient) => ({
    ...directionAlong(directionOf(layout, coefficient), coefficient.sd),
    notPositive: coefficient.notPositive !== undefined,
  }));
  const candidates: Candidate[] = [];
  for (const { parts, logPrior } of combine(proposals, least)) {
    const [event] = parts;
    const expected = after(event.shed ?? event.redrawnClean, event);
    const coefficients = parts.flatMap((part) => part.coefficients.map((one) => direction(one)));
    const logWeight =
      hypothesis.logWeight +
      logPrior +
      sum(parts, ({ logResponse = 0 }) => logResponse) +
      logMarginal(expected(rows(parts)), coefficients);
    candidates.push({ hypothesis, parts, logPrior, logWeight });
  }
  return candidates;
}
