// The likelihood of all evidence along the path of a hypothesis, for other noise parameters.
import { copyOf, type Gaussian } from "../model/gaussian.js";
import type { Layout } from "../model/layout.js";
import type { Noise } from "../model/noise.js";
import type { Step, wholePath } from "../model/path.js";
import { performBegin, performBeginAlike } from "./beginning.js";
import { performClean } from "./maintain.js";
import { performPredict } from "./predict.js";
import { performUpdate } from "./update.js";

/** Natural logarithm of the density, from the start of the path. */
export function logDensityAlong(
  layout: Layout,
  { start, steps }: ReturnType<typeof wholePath>,
  noise: Noise,
): number {
  const state = copyOf(start);
  return steps.reduce((sum, step) => sum + perform(layout, state, step, noise), 0);
}

/**
 * Changes its state in place.
 * @returns the log of the step's probability or density
 */
function perform(layout: Layout, state: Gaussian, step: Step, noise: Noise): number {
  switch (step.kind) {
    case "begin":
      return performBegin(layout, state, step);
    case "begin-alike":
      return performBeginAlike(layout, state, step);
    case "predict":
      return performPredict(layout, state, step, noise);
    case "update":
      return performUpdate(layout, state, step, noise);
    case "clean":
      return performClean(layout, state, step);
  }
}
