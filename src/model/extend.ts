// One more step on the way of a hypothesis.
import { copyOf, type Gaussian } from "./gaussian.js";
import type { Hypothesis } from "./hypothesis.js";
import { type Step, withStep } from "./path.js";
import type { Story } from "./story.js";

/**
 * The hypothesis after one more step, its weight multiplied by what the step returns.
 * @param perform carries out the step on a state, in place; returns the log of its probability or density
 */
export function extend<Own extends Step>(
  { logWeight, state: before, path }: Hypothesis,
  step: Own,
  perform: (state: Gaussian, step: Own) => number,
  story: Story,
): Hypothesis {
  const state = copyOf(before);
  const log = perform(state, step);
  return {
    logWeight: logWeight + log,
    state,
    story,
    ...(path === undefined ? {} : { path: withStep(path, step) }),
  };
}
