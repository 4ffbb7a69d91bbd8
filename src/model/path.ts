// The updates that led to a hypothesis, so that its likelihood can be recomputed for other noise parameters.
import { copyOf, type Gaussian } from "./gaussian.js";
import type { Noise } from "./noise.js";

/** Something that happens to the coefficients, in place; returns the log of its probability or density. */
export type Act = (state: Gaussian, noise: Noise) => number;

/** Newest first. */
export interface Path {
  readonly act: Act;
  readonly before?: Path;
}

/** Log density of all evidence along a path, were the noise this. */
export function logDensityAlong(path: Path, start: Gaussian, noise: Noise): number {
  const acts: Act[] = [];
  for (let at: Path | undefined = path; at !== undefined; at = at.before) acts.push(at.act);
  const state = copyOf(start);
  return acts.reduceRight((sum, act) => sum + act(state, noise), 0);
}
