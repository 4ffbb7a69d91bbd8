// The likelihood of the rows of a cast under a proposal, without the posterior of the coefficients. Most proposals are too
// improbable to need a posterior.

import { normalLogCdf } from "../statistics/normal.js";
import { type Direction, product } from "./direction.js";
import { effectOf, type Information } from "./information.js";

/**
 * Log density of the rows with new coefficients integrated out; their priors are normal or half-normal. U is the effect of
 * the coefficients on the rows. The log density changes by that of U'y under I + U'U = L D L', one coefficient at a time.
 */
export function logMarginal(given: Information, directions: readonly Direction[]): number {
  let { logDensity } = given;
  const before: { along: number; total: number; shares: readonly number[] }[] = [];
  for (const own of directions) {
    const effect = effectOf(own, given);
    let along = product(own, given.vector);
    let total = 1 + product(own, effect);
    // The part of it that earlier coefficients already explain.
    const shares: number[] = [];
    for (const [j, other] of before.entries()) {
      let common = product(directions[j]!, effect);
      for (let k = 0; k < j; k++) common -= shares[k]! * other.shares[k]! * before[k]!.total;
      const share = common / other.total;
      shares.push(share);
      along -= share * other.along;
      total -= share * common;
    }
    logDensity += 0.5 * ((along * along) / total - Math.log(total));
    if (own.notPositive) logDensity += Math.LN2 + normalLogCdf(-along / Math.sqrt(total));
    before.push({ along, total, shares });
  }
  return logDensity;
}
