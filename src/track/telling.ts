// Observations that tell nothing are as none.
import type { TrackedInput } from "./tracked.js";

/**
 * Standard deviation from which an observation tells nothing, in its own unit: fifty times the widest prior, 2000 ppm of a
 * spoilt sample. So a line whose noise grows without bound ends as if it were absent, proposals and all (judgement).
 */
const tellsNothing = 1e5;

/** The same without observations that tell nothing. */
export function telling(input: TrackedInput): TrackedInput {
  const observations = input.observations.filter(({ variance }) => variance < tellsNothing ** 2);
  return observations.length === input.observations.length ? input : { ...input, observations };
}
