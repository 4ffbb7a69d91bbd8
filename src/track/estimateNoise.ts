// The process noise by maximum likelihood. Priors keep it near the usual values while the cruise is short. The likelihood
// is that of the evidence so far, given the most probable history [DurbinKoopman2012].
import type { Layout } from "../model/layout.js";
import { cleanNoise, type Noise } from "../model/noise.js";
import { allSteps, type Updates } from "../model/updates.js";
import { logLikelihood } from "./logLikelihood.js";

/** One standard deviation that is estimated. */
interface Parameter {
  readonly usual: number;
  /**
   * Standard deviation of ln(noise of this cruise / usual noise) (judgement: laboratories and frames differ by some tens of
   * per cent, some by twice as much).
   */
  readonly logSd: number;
  readonly get: (noise: Noise) => number;
  readonly scaled: (noise: Noise, factor: number) => Noise;
}

/**
 * Steps of the logarithm that the search tries in both directions, coarse first (judgement: the last is finer than any
 * estimate).
 */
const steps = [0.6, 0.3, 0.15];

/**
 * @param updates those of the most probable hypothesis
 * @param from start of the search: the noise estimate so far
 */
export function estimateNoise(layout: Layout, updates: Updates, from: Noise): Noise {
  const whole = allSteps(updates);
  const parameters = parametersOf(layout);
  const logPosterior = (noise: Noise) =>
    parameters.reduce(
      (sum, { usual, logSd, get }) => sum - 0.5 * (Math.log(get(noise) / usual) / logSd) ** 2,
      logLikelihood(layout, whole, noise),
    );
  let noise = from;
  let best = logPosterior(noise);
  for (const step of steps) {
    for (const { scaled } of parameters) {
      const tried = [-step, step].map((change) => {
        const other = scaled(noise, Math.exp(change));
        return { noise: other, value: logPosterior(other) };
      });
      const [down, up] = [tried[0]!.value, tried[1]!.value];
      // The maximum of the parabola through the three points, at most one step away.
      const bend = down + up - 2 * best;
      const top = bend < 0 ? (0.5 * (down - up)) / bend : 0;
      const change = step * Math.max(-1, Math.min(1, top));
      const refined = scaled(noise, Math.exp(change));
      tried.push({ noise: refined, value: logPosterior(refined) });
      for (const candidate of tried) {
        if (candidate.value > best) ({ noise, value: best } = candidate);
      }
    }
  }
  return noise;
}

function parametersOf({ sharedErrors }: Layout): readonly Parameter[] {
  const ofErrors = sharedErrors.flatMap(({ name, noise }): readonly Parameter[] => {
    if (noise?.logSd === undefined) return [];
    return [
      {
        usual: noise.usual,
        logSd: noise.logSd,
        get: ({ errors }) => errors[name]!,
        scaled: (from, factor) => ({
          ...from,
          errors: { ...from.errors, [name]: factor * from.errors[name]! },
        }),
      },
    ];
  });
  if (cleanNoise.logSd === undefined) return ofErrors;
  return [
    ...ofErrors,
    {
      usual: cleanNoise.usual,
      logSd: cleanNoise.logSd,
      get: ({ clean }) => clean,
      scaled: (from, factor) => ({ ...from, clean: factor * from.clean }),
    },
  ];
}
