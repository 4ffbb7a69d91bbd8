// Skip observations that carry no information.
import type { TrackedInput } from "./tracked.js";

/**
 * Observations with at least this standard deviation carry no information, in their own unit. The value is fifty times the
 * widest prior, that of a spoilt sample, 2000 ppm (judgement). Without this limit the mere presence of a line would still
 * influence the proposals.
 */
const uninformative = 1e5;

/** The same input without uninformative observations. */
export function informative(input: TrackedInput): TrackedInput {
  const observations = input.observations.filter(({ variance }) => variance < uninformative ** 2);
  return observations.length === input.observations.length ? input : { ...input, observations };
}
