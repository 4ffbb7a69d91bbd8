// One more step on the way of a hypothesis.
import { copyOf } from "./gaussian.js";
import type { Hypothesis } from "./hypothesis.js";
import type { Noise } from "./noise.js";
import type { Act } from "./path.js";
import type { Story } from "./story.js";

/** The hypothesis after one more act, its weight multiplied by what the act returns. */
export function extend(hypothesis: Hypothesis, noise: Noise, act: Act, story: Story): Hypothesis {
  const state = copyOf(hypothesis.state);
  const logWeight = hypothesis.logWeight + act(state, noise);
  const { path } = hypothesis;
  return { logWeight, state, story, path: path === undefined ? { act } : { act, before: path } };
}
