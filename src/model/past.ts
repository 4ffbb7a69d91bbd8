// Estimates of earlier casts, stored while the coefficients change: a fixed-point smoother.

import { composeTransitions, identityTransition, type Transition } from "./transition.js";

/** Quantities of one cast that were functions of the coefficients at that time. */
export interface Entries {
  readonly mean: Float64Array;
  /** Number of quantities in a block; a block holds those of one cell. */
  readonly block: number;
  /** Covariance of each with each quantity of its own block, row by row, count x block. */
  readonly covariance: Float64Array;
  /** Covariance of each with each coefficient, row by row, count x size. */
  readonly cross: Float64Array;
  /**
   * Probabilities that are no functions of the coefficients: the events of the history. Only the weights of the hypotheses
   * change them.
   */
  readonly shares: Float64Array;
}

/**
 * The older past, newest first: entries as of the time when they were stored, and the updates of the coefficients since.
 */
interface OlderPast {
  readonly what: Entries | Transition;
  readonly before?: OlderPast;
}

/**
 * Later evidence also improves the past, through its covariance with the present coefficients. So one run of the filter gives the
 * smoothed values of every cast: a fixed-point smoother [AndersonMoore1979]. Every update of the coefficients acts in the same
 * way on the whole past. It is therefore stored once, as a `Transition`, and the past is computed at the end. So the cost of a
 * cast does not depend on the number of casts before it.
 */
export interface Past {
  /** Entries of the newest casts, oldest first. */
  readonly recent: readonly Entries[];
  /** Updates of the coefficients since `recent` and `older` were valid. */
  readonly since: Transition;
  readonly older?: OlderPast;
}

/**
 * When two hypotheses merge, the past of the newest 24 casts is mixed. Older casts keep the past of the more probable
 * hypothesis. This bounds the cost (judgement: hypotheses that still differ about older casts have rarely become alike).
 */
const mergedCasts = 24;

/** Add a cast with entries as of now, and bring the entries of the recent casts up to now. */
export function withEntries(past: Past | undefined, entries: Entries, size: number): Past {
  if (past === undefined) return { recent: [entries], since: identityTransition(size) };
  const { since } = past;
  const recent = [...past.recent.map((own) => applyTransition(own, since)), entries];
  let { older } = past;
  if (older !== undefined) older = { what: since, before: older };
  while (recent.length > mergedCasts) {
    const what = recent.shift()!;
    older = older === undefined ? { what } : { what, before: older };
  }
  return { recent, since: identityTransition(size), ...(older === undefined ? {} : { older }) };
}

/** All casts, oldest first, with the effect of all later evidence. */
export function smoothedEntries({ recent, since, older }: Past): readonly Entries[] {
  const found = recent.map((own) => applyTransition(own, since)).reverse();
  let transition = since;
  for (let at = older; at !== undefined; at = at.before) {
    const { what } = at;
    if ("cross" in what) found.push(applyTransition(what, transition));
    else transition = composeTransitions(what, transition);
  }
  return found.reverse();
}

/** Entries after the updates of the coefficients. */
export function applyTransition(entries: Entries, { shift, map, loss }: Transition): Entries {
  const { mean, block, covariance, cross, shares } = entries;
  const size = shift.length;
  const count = mean.length;
  const next: Entries = {
    mean: mean.slice(),
    block,
    covariance: covariance.slice(),
    cross: new Float64Array(count * size),
    shares,
  };
  const lost = new Float64Array(size);
  for (let k = 0; k < count; k++) {
    lost.fill(0);
    for (let i = 0; i < size; i++) {
      const own = cross[k * size + i]!;
      if (own === 0) continue;
      next.mean[k]! += own * shift[i]!;
      for (let j = 0; j < size; j++) {
        lost[j]! += own * loss[i * size + j]!;
        next.cross[k * size + j]! += own * map[i * size + j]!;
      }
    }
    const first = k - (k % block);
    for (let b = 0; b < block; b++) {
      let sum = 0;
      for (let j = 0; j < size; j++) sum += lost[j]! * cross[(first + b) * size + j]!;
      next.covariance[k * block + b]! -= sum;
    }
  }
  return next;
}
