// The bottles of one cast relative to their own robust centre (and slope with pressure).
import { effectiveNumber } from "../../statistics/effectiveNumber.js";
import { majorityOutliers } from "../../statistics/majorityOutliers.js";
import { robustRegression } from "../../statistics/robustRegression.js";
import { weightedMedian } from "../../statistics/weightedMedian.js";
import { type BottleNoise, type Departure, ordinaryError } from "./bottleNoise.js";
import type { BottleComparison } from "./bottleResiduals.js";
import { scatterOf, sharedError } from "./sampleScatter.js";

/** Beyond this many robust standard deviations a bottle leaked, tripped elsewhere or was mislabelled (judgement: 1 in 16,000). */
export const leaveOutBeyond = 4;
/** A slope with pressure is also fitted if there are this many bottles and they span this much (judgement). */
const slopeFrom = { bottles: 6, span_dbar: 800 };
/**
 * Prior standard deviation of the slope: published fits have pressure terms up to 2.7e-6 mS/cm per dbar, 80 ppm per 1000 dbar,
 * most of them under half of that [CruiseReports2021]. Without this prior a line follows any three of six bottles.
 */
const slopeSd_ppm_1000dbar = 40;
const steepest_ppm_1000dbar = 3 * slopeSd_ppm_1000dbar;
/**
 * Least effective number of bottles, by weight, that can show a stray by majority. With fewer, the other cell may still show it.
 * Three bottles count as 2.5 if the error of one is twice that of the others; that one can still decide between the two
 * (judgement).
 */
const leastToJudge = 2.5;

export interface CastFit {
  /** Distance of each residual from the centre, in standard deviations `sigma`; one for each residual. */
  readonly z: readonly number[];
  /** Standard deviation of each: ordinary error with the cruise's noise, wider if the cast scatters too much, ppm. */
  readonly sigma: readonly number[];
  /** 0 if there are too few for a centre. */
  readonly degreesOfFreedom: number;
  /** The error that the cast's samples share because they scatter more than chance allows, ppm; otherwise 0. */
  readonly shared_ppm: number;
  /** Scatter relative to the errors; the largest difference of two bottles, in standard deviations, if there are too few. */
  readonly scatter: number;
  /** Whether the scatter is beyond chance. */
  readonly scattered: boolean;
  /** For the cruise's noise; none if the cast has too few bottles. */
  readonly departures: readonly Departure[];
}

/** @param noise of the cruise's bottles */
export function fitCast(closures: readonly BottleComparison[], noise: BottleNoise): CastFit {
  const sigma = closures.map((one) => Math.hypot(ordinaryError(one, noise), one.reading));
  const y = closures.map(({ residual }) => residual);
  if (effectiveNumber(sigma.map((s) => 1 / s ** 2)) < leastToJudge) {
    const z = majorityOutliers(y, sigma, leaveOutBeyond);
    const scatter = largestDifference(y, sigma);
    const scattered = scatter > leaveOutBeyond;
    return { z, sigma, degreesOfFreedom: 0, shared_ppm: 0, scatter, scattered, departures: [] };
  }
  const pressures = closures.map(({ bottle }) => bottle.pressure_dbar);
  const withSlope =
    closures.length >= slopeFrom.bottles &&
    Math.max(...pressures) - Math.min(...pressures) >= slopeFrom.span_dbar;
  const coefficients = withSlope ? 2 : 1;
  const residuals = aboutLine(pressures, y, sigma, withSlope);
  const { scatter, beyondChance } = scatterOf(residuals, sigma, coefficients);
  const level = beyondChance > 0 && withSlope ? aboutLine(pressures, y, sigma, false) : residuals;
  const own = widened(sigma, scatter, beyondChance);
  const degreesOfFreedom = closures.length - coefficients;
  const correction = Math.sqrt(closures.length / Math.max(1, degreesOfFreedom));
  return {
    z: residuals.map((r, i) => r / own[i]!),
    sigma: own,
    degreesOfFreedom,
    shared_ppm: sharedError(level, sigma, beyondChance),
    scatter,
    scattered: beyondChance > 0,
    departures:
      degreesOfFreedom < 2
        ? []
        : closures.map(({ laboratory, gradient, reading }, i) => ({
            residual: correction * residuals[i]!,
            laboratory,
            gradient,
            reading,
          })),
  };
}

/** In standard deviations; 1 for a single bottle. */
function largestDifference(y: readonly number[], sigma: readonly number[]): number {
  let largest = 1;
  for (let i = 0; i < y.length; i++) {
    for (let j = 0; j < i; j++) {
      largest = Math.max(largest, Math.abs(y[i]! - y[j]!) / Math.hypot(sigma[i]!, sigma[j]!));
    }
  }
  return largest;
}

/** Errors as wide as the scatter of the cast, if that is beyond chance. */
function widened(
  sigma: readonly number[],
  scatter: number,
  beyondChance: number,
): readonly number[] {
  const wider = 1 + beyondChance * Math.max(0, scatter - 1);
  return sigma.map((s) => s * wider);
}

/** Residuals about a robust centre, with or without a slope, at the scatter of the cast itself. */
function aboutLine(
  pressures: readonly number[],
  y: readonly number[],
  sigma: readonly number[],
  withSlope: boolean,
): readonly number[] {
  const slope = withSlope ? medianSlope(pressures, y, sigma) : 0;
  const level = y.map((value, i) => value - slope * (pressures[i]! / 1000));
  const centre = weightedMedian(
    level,
    sigma.map((s) => 1 / s ** 2),
  );
  const rough = level.map((value) => value - centre);
  const { scatter, beyondChance } = scatterOf(rough, sigma, withSlope ? 2 : 1);
  const own = widened(sigma, scatter, beyondChance);
  if (!withSlope) {
    const ones = y.map(() => [1]);
    return robustRegression(ones, level, own)?.residuals ?? rough;
  }
  // The prior of the slope is one more row, for the slope alone; it is excluded from the first estimate of the centre.
  const rows = [...pressures.map((p) => [1, p / 1000]), [0, 1]];
  const fit = robustRegression(rows, [...rough, -slope], [...own, slopeSd_ppm_1000dbar]);
  return fit?.residuals.slice(0, -1) ?? rough;
}

/** Slope per 1000 dbar as the weighted median of the slopes of all pairs [Theil1950]: nearly a third may be outliers. */
function medianSlope(
  pressures: readonly number[],
  y: readonly number[],
  sigma: readonly number[],
): number {
  const slopes: number[] = [];
  const weights: number[] = [];
  for (let i = 0; i < y.length; i++) {
    for (let j = 0; j < i; j++) {
      const apart = (pressures[i]! - pressures[j]!) / 1000;
      if (apart === 0) continue;
      slopes.push((y[i]! - y[j]!) / apart);
      weights.push(Math.abs(apart) / Math.hypot(sigma[i]!, sigma[j]!));
    }
  }
  const slope = weightedMedian(slopes, weights);
  return Math.min(steepest_ppm_1000dbar, Math.max(-steepest_ppm_1000dbar, slope));
}
