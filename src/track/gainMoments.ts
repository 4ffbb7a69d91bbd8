// Moments of gain, clean gain and growth rate of a cell, over several hypotheses together.
import type { CellName } from "../cast/cast.js";
import { type Hypothesis, weightOf } from "../model/hypothesis.js";
import { type CellSlot, cellIndex, type Layout } from "../model/layout.js";
import type { GainAndClean } from "./retainedShare.js";

/** Gain and clean gain in ppm, growth rate in ppm a day. */
export interface FilmMoments extends GainAndClean {
  readonly rate: number;
  readonly rateVariance: number;
}

/** @param hypotheses any subset; the weights need not sum to one */
export function momentsOf(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
  slot: "filmDown" | "filmUp",
): FilmMoments {
  const total = weightOf(hypotheses);
  const at = (name: CellSlot) => cellIndex(layout, cell, name);
  const [clean, film, rate] = [at("clean"), at(slot), at("filmRate")];
  return momentsOver(
    hypotheses.map(({ logWeight, state: { mean, covariance } }) => {
      const between = (i: number, j: number) => covariance[i * layout.size + j]!;
      return {
        share: Math.exp(logWeight) / total,
        gain: mean[clean]! + mean[film]!,
        clean: mean[clean]!,
        rate: mean[rate]!,
        rateVariance: between(rate, rate),
        gainVariance: between(clean, clean) + 2 * between(clean, film) + between(film, film),
        cleanVariance: between(clean, clean),
        covariance: between(clean, clean) + between(clean, film),
      };
    }),
  );
}

/** Moments of a mixture; the shares sum to one. */
export function momentsOver(
  own: readonly (FilmMoments & { readonly share: number })[],
): FilmMoments {
  const over = (value: (one: (typeof own)[number]) => number) =>
    own.reduce((sum, one) => sum + one.share * value(one), 0);
  const [gain, clean] = [over((one) => one.gain), over((one) => one.clean)];
  const rate = over((one) => one.rate);
  return {
    gain,
    clean,
    rate,
    rateVariance: over((one) => one.rateVariance + (one.rate - rate) ** 2),
    gainVariance: over((one) => one.gainVariance + (one.gain - gain) ** 2),
    cleanVariance: over((one) => one.cleanVariance + (one.clean - clean) ** 2),
    covariance: over((one) => one.covariance + (one.gain - gain) * (one.clean - clean)),
  };
}
