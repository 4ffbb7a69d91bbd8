// One more step of a hypothesis.

import type { EventHistory } from "./eventHistory.js";
import { copyOf, type Gaussian } from "./gaussian.js";
import type { Hypothesis } from "./hypothesis.js";
import { type FilterStep, withStep } from "./updates.js";

/**
 * The hypothesis after one more step. Its weight is multiplied by the result of the step.
 * @param perform applies the step to a state, in place; returns the log of its probability or density
 */
export function extend<Own extends FilterStep>(
  { logWeight, state: before, updates }: Hypothesis,
  step: Own,
  perform: (state: Gaussian, step: Own) => number,
  events: EventHistory,
): Hypothesis {
  const state = copyOf(before);
  const log = perform(state, step);
  return {
    logWeight: logWeight + log,
    state,
    events,
    ...(updates === undefined ? {} : { updates: withStep(updates, step) }),
  };
}
