// The noise of the model by maximum likelihood, with priors that keep it near the usual while the cruise is short: the
// noise under which the evidence so far was most probable along the most probable history [DurbinKoopman2012].
import type { Gaussian } from "../model/gaussian.js";
import { type Noise, usualNoise } from "../model/noise.js";
import { logDensityAlong, type Path } from "../model/path.js";

/**
 * What is learnt, and by what factor a cruise's own may differ from the usual: standard deviation of its logarithm
 * beforehand (judgement: laboratories and frames differ by some tens of per cent, some by twice as much).
 */
const spread = { run: 0.5, pairWander: 0.5, thermometers: 0.5, clean: 0.7 } as const;
type Learnt = keyof typeof spread;

/** Steps of the logarithm tried to either side, coarse first. */
const steps = [0.6, 0.3, 0.15];

/**
 * @param path  the way of the most probable hypothesis
 * @param start the coefficients at its start
 * @param from  where the search begins: the noise held so far
 */
export function learnNoise(path: Path, start: Gaussian, from: Noise): Noise {
  const names = Object.keys(spread) as Learnt[];
  let noise = from;
  let best = logPosterior(path, start, noise);
  for (const step of steps) {
    for (const name of names) {
      const tried = [-step, step].map((change) => {
        const other = { ...noise, [name]: noise[name] * Math.exp(change) };
        return { noise: other, value: logPosterior(path, start, other) };
      });
      const [down, up] = [tried[0]!.value, tried[1]!.value];
      // The top of the parabola through the three, no further than one step.
      const bend = down + up - 2 * best;
      const top = bend < 0 ? (0.5 * (down - up)) / bend : 0;
      const change = step * Math.max(-1, Math.min(1, top));
      const refined = { ...noise, [name]: noise[name] * Math.exp(change) };
      tried.push({ noise: refined, value: logPosterior(path, start, refined) });
      for (const candidate of tried) {
        if (candidate.value > best) ({ noise, value: best } = candidate);
      }
    }
  }
  return noise;
}

function logPosterior(path: Path, start: Gaussian, noise: Noise): number {
  const names = Object.keys(spread) as Learnt[];
  const prior = names.reduce(
    (sum, name) => sum - 0.5 * (Math.log(noise[name] / usualNoise[name]) / spread[name]) ** 2,
    0,
  );
  return prior + logDensityAlong(path, start, noise);
}
