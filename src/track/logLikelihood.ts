// The likelihood of all evidence of the updates of a hypothesis, for other noise parameters.
import { copyOf, type Gaussian } from "../model/gaussian.js";
import type { Layout } from "../model/layout.js";
import type { Noise } from "../model/noise.js";
import type { allSteps, FilterStep } from "../model/updates.js";
import { performInitialise, performInitialiseBoth } from "./initialise.js";
import { performClean } from "./maintain.js";
import { performPredict } from "./predict.js";
import { performUpdate } from "./update.js";

/** Natural logarithm of the density, from the first update. */
export function logLikelihood(
  layout: Layout,
  { start, steps }: ReturnType<typeof allSteps>,
  noise: Noise,
): number {
  const state = copyOf(start);
  return steps.reduce((sum, step) => sum + perform(layout, state, step, noise), 0);
}

/**
 * Changes its state in place.
 * @returns the log of the step's probability or density
 */
function perform(layout: Layout, state: Gaussian, step: FilterStep, noise: Noise): number {
  switch (step.kind) {
    case "begin":
      return performInitialise(layout, state, step);
    case "begin-alike":
      return performInitialiseBoth(layout, state, step);
    case "predict":
      return performPredict(layout, state, step, noise);
    case "update":
      return performUpdate(layout, state, step, noise);
    case "clean":
      return performClean(layout, state, step);
  }
}
