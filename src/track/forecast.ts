// The gain at the next station: level, growth of a film, the wander of the clean gain, and the chance that
// something new is caught.
import type { CellName } from "../cast/cast.js";
import { stepChance, stepSizes } from "../causes/fouling.js";
import { projected } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import type { Noise } from "../model/noise.js";
import { cellIndex, gainRow, type Layout } from "../model/state.js";
import type { Mixture } from "../statistics/mixture.js";

/**
 * Distribution of a cell's gain as the next up leg ends, ppm.
 * @param days time to the next cast
 */
export function forecastGain(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
  days: number,
  noise: Noise,
): Mixture {
  const row = gainRow(layout, cell, "up");
  row[cellIndex(layout, cell, "filmRate")] = days;
  const spread = noise.clean ** 2 * days + 2 * noise.film ** 2;
  return hypotheses.flatMap(({ logWeight, state }) => {
    const weight = Math.exp(logWeight);
    const { mean, variance } = projected(state, row);
    return [
      { weight: weight * (1 - stepChance), mean, variance: variance + spread },
      ...stepSizes.map(({ sd, share }) => ({
        weight: weight * stepChance * share,
        // Mean and variance of a half-normal of scale sd.
        mean: mean - sd * Math.sqrt(2 / Math.PI),
        variance: variance + spread + sd * sd * (1 - 2 / Math.PI),
      })),
    ];
  });
}
