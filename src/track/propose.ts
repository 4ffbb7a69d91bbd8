// The new events possible at a cast: every hypothesis with every proposal of every cause, and the likelihoods.

import { group } from "d3-array";
import { causes } from "../causes/index.js";
import type { Coefficient, Proposal, ProposalContext } from "../model/cause.js";
import { designRow } from "../model/designRow.js";
import { copyOf, type Gaussian } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import type { Layout } from "../model/layout.js";
import type { Noise } from "../model/noise.js";
import { atTheTurn, type ChangePlaces } from "../model/placesOnCast.js";
import type { Rows } from "../model/rows.js";
import { effectiveNumber } from "../statistics/effectiveNumber.js";
import { type Combination, combine, jointProposal } from "./combine.js";
import { compress } from "./compress.js";
import { type Direction, logMarginal, type PredictedRows, rowPredictor } from "./marginal.js";
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
  since: Pick<ProposalContext, "castsSinceEvidence" | "unchangedErrors">,
  noise: Noise,
): readonly Hypothesis[] {
  const lines = new Map(
    [...group(input.observations, ({ line }) => line)].map(([line, observations]) => [
      line,
      effectiveNumber(observations.map(({ variance }) => 1 / variance)),
    ]),
  );
  const rows = rowsFor(layout, input);
  const candidates = held.flatMap((hypothesis) =>
    candidatesOf(layout, hypothesis, rows, noise, {
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
    .map(({ hypothesis, combination, logPrior }) => {
      const proposal = jointProposal(combination);
      return update(layout, hypothesis, proposal, logPrior, rows(proposal), noise);
    });
}

interface Candidate {
  readonly hypothesis: Hypothesis;
  readonly combination: Combination;
  readonly logPrior: number;
  /** A combination with its log weight among all: enough to decide whether to keep it. */
  readonly logWeight: number;
}

function candidatesOf(
  layout: Layout,
  hypothesis: Hypothesis,
  rows: ReturnType<typeof rowsFor>,
  noise: Noise,
  context: ProposalContext,
): readonly Candidate[] {
  const least = Math.exp(leastLogPrior - hypothesis.logWeight);
  const { combinations, total } = combine(
    causes.flatMap((cause) => cause.propose(context)),
    least,
  );
  const predictors = new Map<Change, (rows: Rows) => PredictedRows>();
  const directions = directionsFor(layout);
  const candidates: Candidate[] = [];
  for (const combination of combinations) {
    const { event, doubt, prior } = combination;
    const logPrior = Math.log(prior / total);
    if (hypothesis.logWeight + logPrior < leastLogPrior) continue;
    const change = event.shed ?? event.redrawnClean;
    const expected =
      predictors.get(change) ?? rowPredictor(changed(layout, hypothesis.state, event, noise));
    predictors.set(change, expected);
    const logWeight =
      hypothesis.logWeight +
      logPrior +
      ((event.logResponse ?? 0) + (doubt?.logResponse ?? 0)) +
      logMarginal(
        expected(rows(event, doubt)),
        [...event.coefficients, ...(doubt?.coefficients ?? [])].map(directions),
      );
    candidates.push({ hypothesis, combination, logPrior, logWeight });
  }
  return candidates;
}

/** The change of the state before the coefficients. Proposals that differ only in their doubt share this object. */
type Change = Proposal["shed"] | Proposal["redrawnClean"];

function changed(layout: Layout, state: Gaussian, proposal: Proposal, noise: Noise): Gaussian {
  if (proposal.shed === undefined && proposal.redrawnClean === undefined) return state;
  const copy = copyOf({ mean: state.mean, covariance: state.covariance });
  changeState(layout, copy, proposal, noise);
  return copy;
}

/** The direction of a coefficient; all proposals with the same coefficient share one object. */
function directionsFor(layout: Layout): (coefficient: Coefficient) => Direction {
  const known = new Map<Coefficient, Direction>();
  return (coefficient) => {
    const found = known.get(coefficient) ?? {
      direction: directionOf(layout, coefficient),
      sd: coefficient.sd,
      notPositive: coefficient.notPositive !== undefined,
    };
    known.set(coefficient, found);
    return found;
  };
}

/** The rows for an event with a doubt, compressed once for each combination of places and extra variances. */
function rowsFor(layout: Layout, { observations, path }: TrackedInput) {
  const known = new Map<Proposal["extraVariance"], Map<string, Rows>>();
  const sameVariances = new Map<string, Map<string, Rows>>();
  const seen = new Map<string, readonly Float64Array[]>();
  const values = observations.map(({ value }) => value);
  const variancesWith = (extra: Proposal["extraVariance"]) =>
    observations.map((o) => o.variance + (extra?.(o) ?? 0));
  /** Functions that add the same variances share their rows. */
  const placedWith = (extra: Proposal["extraVariance"]) => {
    const key = variancesWith(extra).join();
    const found = sameVariances.get(key) ?? new Map<string, Rows>();
    sameVariances.set(key, found);
    known.set(extra, found);
    return found;
  };
  return (event: Proposal, doubt?: Proposal): Rows => {
    const extraVariance = doubt?.extraVariance ?? event.extraVariance;
    const places = { ...event.places, ...doubt?.places };
    const placed = known.get(extraVariance) ?? placedWith(extraVariance);
    const key = placesKey(places);
    const found = placed.get(key);
    if (found !== undefined) return found;
    const rows = seen.get(key) ?? observations.map((each) => designRow(layout, each, places, path));
    seen.set(key, rows);
    const variances = variancesWith(extraVariance);
    const few = compress({ rows, values, variances, logConstant: 0 });
    placed.set(key, few);
    return few;
  };
}

/** Equal for places that give the same rows: the default place of a change needs no mention. */
function placesKey({ onsets = {}, ...others }: ChangePlaces): string {
  const placed = Object.entries(onsets).filter(([, place]) => place !== atTheTurn);
  return placed.length + Object.keys(others).length === 0 ? "" : JSON.stringify([placed, others]);
}
