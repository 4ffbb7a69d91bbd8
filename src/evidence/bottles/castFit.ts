// The bottles of one cast about their own robust centre (and slope with pressure), and how much more they scatter than
// their errors allow.
//
// Samples that all went wrong, by evaporation or by fresh water in the flasks, scatter by far more than the laboratory
// does, and all to one side: their centre is off by as much as they scatter, however many they are.
import { effectiveNumber } from "../../statistics/effectiveNumber.js";
import { outvoted } from "../../statistics/outvoted.js";
import { robustRegression } from "../../statistics/robustRegression.js";
import { weightedMedian } from "../../statistics/weightedMedian.js";
import { atScale } from "./bottleNoise.js";
import type { BottleResidual } from "./bottleResiduals.js";

/** Beyond this many robust standard deviations a bottle leaked, tripped elsewhere or was mislabelled (judgement: 1 in 16,000). */
export const leaveOutBeyond = 4;
/** A slope with pressure is fitted beside where the bottles are this many and span this much (judgement). */
const slopeFrom = { bottles: 6, span_dbar: 800 };
/**
 * With fewer, counted by their weights, a stray bottle is told from a sound one by what most say, if at all. Three count
 * as 2.5 where the error of one is twice that of the others: it can still be the judge between them.
 */
const leastToJudge = 2.5;
/** 1 / the 0.75 quantile of the standard normal distribution. */
const toNormal = 1.4826;
/** The median absolute deviation is 37 % efficient on normal errors [RousseeuwCroux1993]. */
const madEfficiency = 0.37;
/** Scatter is held for chance up to this many of its own standard deviations: 1 in 200. */
const chance = 2.6;
/**
 * Standard deviation of the shared error in units of the excess scatter. Errors evenly spread from 0.05 of the largest
 * up, all to one side, have their median 1.5 times their robust scale from the truth, exponential ones once: 2 holds
 * both in the 95 % interval also where a dozen samples tell the scatter to a third of itself (judgement).
 */
const sharedPerScatter = 2;

export interface CastFit {
  /** Each residual about the centre, in standard deviations of `sigma`; one a residual. */
  readonly z: readonly number[];
  /** Standard deviation of each: ordinary error at the cruise's scale, times what the cast scatters too much, ppm. */
  readonly sigma: readonly number[];
  /** 0 where there are too few for a centre. */
  readonly degreesOfFreedom: number;
  /** The error that the cast's samples share because they scatter more than chance allows, ppm; 0 where they do not. */
  readonly shared_ppm: number;
  /** Scatter over what the errors allow; 1 where too few tell. */
  readonly excess: number;
  /** About the centre, over the ordinary errors at scale 1, corrected for degrees of freedom: for the cruise's scale. */
  readonly standardised: readonly number[];
}

/** @param scale the cruise's bottle noise scale */
export function fitCast(closures: readonly BottleResidual[], scale: number): CastFit {
  const sigma = closures.map(({ sigma: own, laboratory, reading }) =>
    Math.hypot(atScale(own, laboratory, scale), reading),
  );
  const y = closures.map(({ residual }) => residual);
  const weights = sigma.map((s) => 1 / s ** 2);
  const count = effectiveNumber(weights);
  if (count < leastToJudge) {
    const z = outvoted(y, sigma, leaveOutBeyond);
    return { z, sigma, degreesOfFreedom: 0, shared_ppm: 0, excess: 1, standardised: [] };
  }
  const pressures = closures.map(({ bottle }) => bottle.pressure_dbar);
  const withSlope =
    closures.length >= slopeFrom.bottles &&
    Math.max(...pressures) - Math.min(...pressures) >= slopeFrom.span_dbar;
  const design = pressures.map((p) => (withSlope ? [1, p / 1000] : [1]));
  const slope = withSlope ? medianSlope(pressures, y, sigma) : 0;
  const level = y.map((value, i) => value - slope * pressures[i]!);
  const centre = weightedMedian(level, weights);
  const columns = withSlope ? 2 : 1;
  const allowed = 1 + chance / Math.sqrt(2 * madEfficiency * Math.max(1, count - columns));
  const scatterOf = (residuals: readonly number[]) =>
    toNormal *
    weightedMedian(
      residuals.map((r, i) => Math.abs(r) / sigma[i]!),
      weights,
    ) *
    Math.sqrt(count / Math.max(1, count - columns));
  const rough = scatterOf(level.map((value) => value - centre)) / allowed;
  const widened = sigma.map((s) => s * Math.max(1, rough));
  const fit = robustRegression(design, level, widened);
  const residuals = fit?.residuals ?? level.map((value) => value - centre);
  const scatter = scatterOf(residuals);
  const inflated = Math.max(1, scatter / allowed);
  const typical = Math.sqrt(count / weights.reduce((sum, w) => sum + w, 0));
  const beyond = Math.sqrt(Math.max(0, scatter ** 2 - allowed ** 2));
  const degreesOfFreedom = closures.length - columns;
  const correction = Math.sqrt(closures.length / Math.max(1, degreesOfFreedom));
  return {
    z: residuals.map((r, i) => r / (sigma[i]! * inflated)),
    sigma: sigma.map((s) => s * inflated),
    degreesOfFreedom,
    shared_ppm: sharedPerScatter * beyond * typical,
    excess: scatter / allowed,
    standardised:
      degreesOfFreedom < 2
        ? []
        : residuals.map(
            (r, i) => (correction * r) / Math.hypot(closures[i]!.sigma, closures[i]!.reading),
          ),
  };
}

/** Slope per dbar by the weighted median of the slopes of all pairs [Theil1950]: near a third may be wild. */
function medianSlope(
  pressures: readonly number[],
  y: readonly number[],
  sigma: readonly number[],
): number {
  const slopes: number[] = [];
  const weights: number[] = [];
  for (let i = 0; i < y.length; i++) {
    for (let j = 0; j < i; j++) {
      const apart = pressures[i]! - pressures[j]!;
      if (apart === 0) continue;
      slopes.push((y[i]! - y[j]!) / apart);
      weights.push(Math.abs(apart) / Math.hypot(sigma[i]!, sigma[j]!));
    }
  }
  return weightedMedian(slopes, weights);
}
