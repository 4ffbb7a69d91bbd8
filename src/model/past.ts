// What was, kept while the coefficients move on: a fixed-point smoother.

import { type Carry, carriedInto, nothingYet } from "./carry.js";

/** Quantities of one cast that were functions of the coefficients once. */
export interface Entries {
  readonly mean: Float64Array;
  /** Quantities stand in blocks of so many, those of one cell. */
  readonly block: number;
  /** Of each with each of its own block, row by row, count x block. */
  readonly covariance: Float64Array;
  /** Covariance of each with each coefficient, row by row, count x size. */
  readonly cross: Float64Array;
  /**
   * Shares of one that are no functions of the coefficients: what was held to have happened. Only the weights of the
   * hypotheses that remember them move them.
   */
  readonly shares: Float64Array;
}

/** Older than that: entries as they stood when they were put away, and what happened to the coefficients since; newest first. */
interface PutAway {
  readonly what: Entries | Carry;
  readonly before?: PutAway;
}

/**
 * What is learnt later is learnt of the past too, through its covariance with the coefficients of now. So the filter,
 * run once, ends with the smoothed values of every cast: a fixed-point smoother [AndersonMoore1979]. What happens to the
 * coefficients does the same to all of the past, so it is kept once, as a `Carry`, and the past is worked out at the end:
 * a cast costs the same however many came before.
 */
export interface Past {
  /** Of the newest casts, oldest first. */
  readonly recent: readonly Entries[];
  /** What happened to the coefficients since `recent` and `older` were as they are. */
  readonly since: Carry;
  readonly older?: PutAway;
}

/**
 * When two hypotheses merge, the past of the newest 24 casts is mixed. Older casts keep the past of the likelier hypothesis,
 * which bounds the cost (judgement: hypotheses that still differ about older casts have rarely become alike).
 */
const mixedCasts = 24;

/** One cast more, whose entries are as of now; those before are brought up to now. */
export function withEntries(past: Past | undefined, entries: Entries, size: number): Past {
  if (past === undefined) return { recent: [entries], since: nothingYet(size) };
  const { since } = past;
  const recent = [...past.recent.map((own) => broughtUp(own, since)), entries];
  let { older } = past;
  if (older !== undefined) older = { what: since, before: older };
  while (recent.length > mixedCasts) {
    const what = recent.shift()!;
    older = older === undefined ? { what } : { what, before: older };
  }
  return { recent, since: nothingYet(size), ...(older === undefined ? {} : { older }) };
}

/** All casts, oldest first, as all that came later tells. */
export function recalled({ recent, since, older }: Past): readonly Entries[] {
  const found = recent.map((own) => broughtUp(own, since)).reverse();
  let carry = since;
  for (let at = older; at !== undefined; at = at.before) {
    const { what } = at;
    if ("cross" in what) found.push(broughtUp(what, carry));
    else carry = carriedInto(what, carry);
  }
  return found.reverse();
}

/** Entries as they are after what happened to the coefficients. */
export function broughtUp(entries: Entries, { shift, kept, loss }: Carry): Entries {
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
        next.cross[k * size + j]! += own * kept[i * size + j]!;
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
