// The way a hypothesis came, kept so that it can be gone again with other noise: how probable the evidence is along
// it, as a function of the noise, is what noise is learnt from.
import { copyOf, type Gaussian } from "./gaussian.js";
import type { Hypothesis } from "./hypothesis.js";
import type { Noise } from "./noise.js";
import type { Story } from "./story.js";

/** Something that happens to the coefficients, in place; returns the log of its probability or density. */
export type Act = (state: Gaussian, noise: Noise) => number;

/** Newest first. */
export interface Path {
  readonly act: Act;
  readonly before?: Path;
}

/** The hypothesis after an act, its weight multiplied by what the act returns. */
export function goOn(hypothesis: Hypothesis, noise: Noise, act: Act, story: Story): Hypothesis {
  const state = copyOf(hypothesis.state);
  const logWeight = hypothesis.logWeight + act(state, noise);
  const { path } = hypothesis;
  return { logWeight, state, story, path: path === undefined ? { act } : { act, before: path } };
}

/** Log density of all evidence along a path, were the noise this. */
export function logDensityAlong(path: Path, start: Gaussian, noise: Noise): number {
  const acts: Act[] = [];
  for (let at: Path | undefined = path; at !== undefined; at = at.before) acts.push(at.act);
  const state = copyOf(start);
  return acts.reduceRight((sum, act) => sum + act(state, noise), 0);
}
