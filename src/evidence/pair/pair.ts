// Two cells on one package: ln(C1/C2) at the same water, each cell's conductivity taken with its own
// temperature. Observes g(primary) - g(secondary), leg by leg and very precisely; which of the two moved
// is for the causes to say.
//
// The two thermometers tell how far the water was the same: where their difference is not the usual one,
// the pair says less.
import type { LegName } from "../../cast/cast.js";
import type { LineOfEvidence, Observation } from "../../model/observation.js";
import { pairDesign, unevenness_ppm } from "../../model/pairDesign.js";
import { madScale } from "../../statistics/madScale.js";
import { median } from "../../statistics/robustCentre.js";
import { robustRegression } from "../../statistics/robustRegression.js";
import type { PairDifference, PairDifferences } from "./pairDifferences.js";

/** Layers are joined into at most so many blocks a leg, each of at least so many, so that a change within the leg shows (judgement). */
const blocks = 6;
const leastInBlock = 3;
/** Where too few differences tell their scatter, it is taken for this, ppm (judgement). */
export const unknownScatter_ppm = 10;
/** Parts of a block that scatter by more than so many times their errors are not of one gain (judgement). */
const beyondChance = 2;

/** Fewer places do not tell the lags of the cells from their gains (judgement). */
const leastForLag = 8;
/** Share of what the lags make of the pair that is left when their difference is taken out (judgement). */
const lagShareLeft = 0.3;

/** The pair on one cast. */
export function pairEvidence(castId: string, { from, byLeg }: PairDifferences): LineOfEvidence {
  const lag = lagDifference(byLeg);
  const observations = (["down", "up"] as const).flatMap((leg) =>
    summarise(castId, leg, byLeg[leg] ?? [], lag),
  );
  return {
    line: "pair",
    cast: castId,
    cell: "both",
    observations,
    leftOut: [],
    notes: observations.length > 0 && from === "closures" ? ["from bottle closures only"] : [],
  };
}

/** Differences of one leg as observations, one a block of neighbours. */
function summarise(
  castId: string,
  leg: LegName,
  all: readonly PairDifference[],
  lagDifference: number,
): Observation[] {
  const sorted = [...all].sort((a, b) => a.pressure - b.pressure);
  const usual = median(sorted.map(({ temperature }) => temperature));
  const values = sorted.map(({ value, lag }) => value - lagDifference * lag);
  const scatter = neighbourScatter(values);
  const size = Math.max(leastInBlock, Math.ceil(sorted.length / blocks));
  // A block as good as the best of its parts: the weight of each is by how usual its temperatures are.
  const weighed = sorted.map((part) => {
    const stir = part.perKelvin * (part.temperature - usual);
    const left = lagShareLeft * lagDifference * part.lag;
    return { ...part, weight: 1 / (scatter ** 2 + stir ** 2 + left ** 2) };
  });
  const observations: Observation[] = [];
  for (let start = 0, end = 0; start < weighed.length; start = end) {
    const { stretch } = weighed[start]!;
    while (end < Math.min(start + size, weighed.length) && weighed[end]!.stretch === stretch) end++;
    const parts = weighed.slice(start, end);
    const weights = parts.reduce((sum, { weight }) => sum + weight, 0);
    const value = parts.reduce((sum, part) => sum + part.weight * part.value, 0);
    const pressure = parts.reduce((sum, part) => sum + part.weight * part.pressure, 0);
    const lag = parts.reduce((sum, part) => sum + part.weight * part.lag, 0) / weights;
    const left = lagShareLeft * lagDifference * lag;
    const { water } = parts[Math.floor(parts.length / 2)]!;
    observations.push({
      line: "pair",
      onTheMove: true,
      cast: castId,
      design: pairDesign(leg, { pressure_dbar: pressure / weights, water }, lag),
      unit: "ppm",
      value: value / weights,
      variance:
        1 / weights +
        unevenness_ppm ** 2 +
        left ** 2 +
        disagreement(parts, value / weights, lagDifference),
      pressure_dbar: pressure / weights,
      water,
    });
  }
  return observations;
}

/**
 * Where a cell caught something amid a block, its mean is the gain of no part of it and holds for none of them:
 * the variance of the parts about it, beyond twice what their errors make, ppm squared.
 */
function disagreement(
  parts: readonly { readonly weight: number; readonly value: number; readonly lag: number }[],
  mean: number,
  lagDifference: number,
): number {
  const weights = parts.reduce((sum, { weight }) => sum + weight, 0);
  const meanLag = parts.reduce((sum, { weight, lag }) => sum + weight * lag, 0) / weights;
  const squares = parts.reduce(
    (sum, { weight, value, lag }) =>
      sum + weight * (value - mean - lagDifference * (lag - meanLag)) ** 2,
    0,
  );
  return Math.max(0, (squares - beyondChance ** 2 * (parts.length - 1)) / weights);
}

/**
 * By how many times the usual the lag of the first cell is more than that of the second, on this cast: so that parts are
 * judged without it. 0 where too little tells.
 */
function lagDifference(byLeg: PairDifferences["byLeg"]): number {
  const parts = (["down", "up"] as const).flatMap((leg) =>
    (byLeg[leg] ?? []).map(({ value, lag }) => ({ value, lag, up: leg === "up" ? 1 : 0 })),
  );
  if (parts.length < leastForLag || parts.every(({ lag }) => lag === 0)) return 0;
  const scatter = neighbourScatter(parts.map(({ value }) => value));
  const fit = robustRegression(
    parts.map(({ lag, up }) => [1, lag, up]),
    parts.map(({ value }) => value),
    parts.map(() => Math.hypot(scatter, unevenness_ppm)),
  );
  return fit?.coefficients[1] ?? 0;
}

/** Scatter from differences of neighbours, which a trend or a step leaves alone, ppm. */
function neighbourScatter(values: readonly number[]): number {
  const steps = values.slice(1).map((value, i) => (value - values[i]!) / Math.SQRT2);
  // Two differences have no scatter to speak of, and the usual counts as three (judgement).
  const seen = steps.length < 3 ? 0 : madScale(steps, 0);
  const share = steps.length / (steps.length + 3);
  return Math.hypot(Math.sqrt(share) * seen, Math.sqrt(1 - share) * unknownScatter_ppm);
}
