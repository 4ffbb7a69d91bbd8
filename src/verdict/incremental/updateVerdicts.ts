// Update the verdicts on a cruise: those with unchanged inputs are reused, and the others are computed again. All verdicts
// are made here, for a whole cruise and for one more cast.
import type { CellName } from "../../cast/cast.js";
import type { CellPriors } from "../../model/cellPrior.js";
import type { Layout } from "../../model/layout.js";
import { defaultRecovery } from "../../model/recovery.js";
import { cleaningOutcomes, outcomeCache } from "../../track/cleaningOutcomes.js";
import { type FilmsOfCast, filmEstimates } from "../../track/filmEstimates.js";
import { layoutOf } from "../../track/layout.js";
import { pastCast } from "../../track/pastCast.js";
import { finishCast, initialFilter, updateWithCast } from "../../track/track.js";
import type { TrackedCast } from "../../track/tracked.js";
import type { AssessmentSettings } from "../assessmentSettings.js";
import { castVerdict } from "../castVerdict.js";
import { castInputs, cellsKnown, type KnownCruise } from "../gather/knownCruise.js";
import { type CastInputs, observeCast } from "../gather/observeCast.js";
import { cruisePriors, priorsOfFitted } from "../history/cruisePriors.js";
import { type JudgementInputs, judgementInputs } from "../judge/judgementInputs.js";
import { samePlain } from "./samePlain.js";
import {
  type About,
  type Checkpoint,
  type StoredCast,
  type StoredCruise,
  thinCheckpoints,
} from "./storedCruise.js";

/**
 * @param before the stored results of the same cruise; absent at its beginning
 * @param until  number of casts to use; later ones are ignored
 */
export function updateVerdicts(
  known: KnownCruise,
  { onCast, ...settings }: AssessmentSettings,
  before?: StoredCruise,
  until = known.casts.length,
): StoredCruise {
  const { cruise } = known;
  const cells = cellsKnown(known);
  const { instrument, target, deepReference } = cruise;
  const about: About = {
    cells,
    instrument,
    target,
    settings,
    ...(deepReference && { deepReference }),
  };
  const stored = before !== undefined && samePlain(before.about, about) ? before : undefined;
  const layout = layoutOf(cells);
  const judgedBy = judgementInputs(known, cells);
  const priors = cruisePriors(cruise, cells, judgedBy[0]?.serials ?? [], settings.history);
  const inputsAt = once(castInputs(known, cells));

  const { same, again } = unchanged(stored, inputsAt, judgedBy, until);
  const casts: StoredCast[] = stored?.casts.slice(0, same) ?? [];
  let checkpoints: readonly Checkpoint[] = (stored?.checkpoints ?? []).filter(
    ({ after }) => after < same,
  );
  const caches = cells.map((_, i) =>
    outcomeCache((stored?.outcomes[i] ?? []).filter(({ last }) => last < same)),
  );
  let newest = stored?.newest;

  const fittedAfter = (index: number) => {
    const { cast, entries } = inputsAt(index);
    return priorsOfFitted(cruise, cells, entries.after, cast.start, settings.history);
  };
  const observe = (index: number, from: Checkpoint) => {
    const responses = casts.slice(0, index).map(({ inputs }) => inputs.read?.responses ?? {});
    const inputs = inputsAt(index);
    const { memories } = from;
    const listed = instrument.cells ?? [];
    const observed = observeCast(
      inputs,
      listed,
      deepReference,
      responses,
      memories,
      priors.response,
    );
    const { byCell } = fittedAfter(index);
    const tracked = { ...observed.found.tracked, fitted: byCell };
    return { ...observed, found: { ...observed.found, tracked } };
  };
  const judge = (
    index: number,
    { found }: ReturnType<typeof observe>,
    now: TrackedCast,
  ): StoredCast => {
    const past = pastCast(found.tracked);
    const films = cells.map((cell) => filmsOf(layout, now, cell));
    const earlier = casts.slice(0, index);
    const inputs = [...earlier.map((one) => one.past), past];
    const seen = cells.flatMap((cell, i) => {
      const own = [...earlier.map((one) => one.films[i]!), films[i]!];
      return cleaningOutcomes(cell, { inputs, films: own }, caches[i]!);
    });
    const verdicts = earlier.map(({ verdict }) => verdict);
    const by = judgedBy[index]!;
    const outcomes = [...priors.outcomes, ...seen];
    const args = [cruise, cells, inputs, found, now, outcomes, verdicts, by, settings] as const;
    const bare = castVerdict(...args);
    const ofFitted = earlier.flatMap((_, i) => fittedAfter(i).notes);
    const verdict = { ...bare, notes: [...bare.notes, ...priors.notes, ...ofFitted] };
    return { inputs: inputsAt(index), judgementInputs: by, past, films, verdict };
  };

  if (again !== undefined) {
    casts[same - 1] = judge(same - 1, observe(same - 1, again), newest!);
  }
  let at = checkpoints.at(-1) ?? checkpointBefore(layout, known, priors.byCell);
  for (let index = at.after + 1; index < until; index++) {
    const observed = observe(index, at);
    const { tracked } = observed.found;
    const updated = updateWithCast(layout, at.filter, tracked, casts[index - 1]?.past);
    const filter = finishCast(layout, updated, tracked, defaultRecovery);
    at = { after: index, memories: observed.memories, filter };
    checkpoints = thinCheckpoints([...checkpoints, at]);
    // For casts since the checkpoint with unchanged inputs, only the filter runs again.
    if (index < same) continue;
    const { hypotheses, noise } = updated;
    newest = { cast: tracked.cast, hypotheses, afterMaintenance: filter.hypotheses, noise };
    casts.push(judge(index, observed, newest));
    onCast?.(index + 1, known.casts.length, tracked.cast);
  }
  return {
    about,
    casts,
    checkpoints,
    ...(newest === undefined ? {} : { newest }),
    outcomes: caches.map((own) => [...own.values()]),
  };
}

function checkpointBefore(layout: Layout, { casts }: KnownCruise, priors: CellPriors): Checkpoint {
  return {
    after: -1,
    memories: {},
    filter: initialFilter(layout, casts[0]?.cast.id ?? "", priors),
  };
}

/**
 * The number of verdicts, from the first, that stay unchanged. The last of them only needs to be judged again, from the
 * checkpoint before it, because it is no longer the newest cast.
 */
function unchanged(
  stored: StoredCruise | undefined,
  inputsAt: (index: number) => CastInputs,
  judgedBy: readonly JudgementInputs[],
  until: number,
): { readonly same: number; readonly again?: Checkpoint } {
  const casts = stored?.casts ?? [];
  for (let index = 0; index < Math.min(casts.length, until); index++) {
    const { inputs, judgementInputs: by } = casts[index]!;
    if (!samePlain(inputs, inputsAt(index))) return { same: index };
    if (samePlain(by, judgedBy[index])) continue;
    const again = stored?.checkpoints.find(({ after }) => after === index - 1);
    const isLast = index === casts.length - 1 && index < until - 1;
    return isLast && again !== undefined ? { same: index + 1, again } : { same: index };
  }
  return { same: Math.min(casts.length, until) };
}

function filmsOf(
  layout: Layout,
  { hypotheses, afterMaintenance }: TrackedCast,
  cell: CellName,
): FilmsOfCast {
  const afterEvidence = filmEstimates(layout, hypotheses, cell);
  return {
    afterEvidence,
    afterMaintenance:
      afterMaintenance === hypotheses
        ? afterEvidence
        : filmEstimates(layout, afterMaintenance, cell),
  };
}

/** Calls the function at most once for each index, because each call reads the scans. */
function once<T>(of: (index: number) => T): (index: number) => T {
  const found: T[] = [];
  return (index) => {
    found[index] ??= of(index);
    return found[index];
  };
}
