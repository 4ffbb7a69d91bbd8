// The gain at the next station: level, growth of a film, the random walk of the clean gain, and the probability of a new
// event.
import { sum } from "d3-array";
import type { CellName } from "../cast/cast.js";
import { causes } from "../causes/index.js";
import { gainRow } from "../model/designRow.js";
import { cellEvents } from "../model/eventHistory.js";
import { daysOfGrowth, type GrowthTime } from "../model/filmGrowth.js";
import { projected } from "../model/gaussian.js";
import type { Hypothesis } from "../model/hypothesis.js";
import { cellIndex, type Layout } from "../model/layout.js";
import type { Noise } from "../model/noise.js";
import type { Mixture } from "../statistics/mixture.js";

/**
 * Distribution of a cell's gain at the end of the next up leg, ppm.
 * @param time to the next cast, and how long that will be in the water
 */
export function forecastGain(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
  time: GrowthTime,
  noise: Noise,
): Mixture {
  const spread = noise.clean ** 2 * time.days + 2 * noise.film ** 2;
  const coming = causes.flatMap(({ newEvent }) => newEvent ?? []);
  const nothing = 1 - sum(coming, ({ chance }) => chance);
  return hypotheses.flatMap(({ logWeight, state, events }) => {
    const weight = Math.exp(logWeight);
    const row = gainRow(layout, cell, "up");
    row[cellIndex(layout, cell, "filmRate")] = daysOfGrowth(cellEvents(events, cell).film, time);
    row[cellIndex(layout, cell, "cleanRate")] = time.days;
    const { mean, variance } = projected(state, row);
    return [
      { weight: weight * nothing, mean, variance: variance + spread },
      ...coming.flatMap(({ chance, sizes }) =>
        sizes.map(({ sd, share }) => ({
          weight: weight * chance * share,
          // Mean and variance of a half-normal of scale sd.
          mean: mean - sd * Math.sqrt(2 / Math.PI),
          variance: variance + spread + sd * sd * (1 - 2 / Math.PI),
        })),
      ),
    ];
  });
}
