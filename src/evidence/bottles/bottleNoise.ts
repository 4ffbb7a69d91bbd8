// Difference of a sound bottle from a sound cell. It has two parts: the laboratory, and the closure mismatch, which grows with
// the gradient of salinity. The usual size of each is fixed here; the cruise's own bottles estimate a scale for each.
import { madEfficiency, toNormal } from "../../statistics/madScale.js";
import { weightedMedian } from "../../statistics/weightedMedian.js";

/**
 * Standard deviation of a laboratory salinity against a sound cell in calm deep water, PSS-78.
 * 95 % limits of 0.0016 to 0.0022 below 2000 dbar on four GO-SHIP legs of 2021 and 2022 are standard
 * deviations of 0.0008 to 0.0011 [CruiseReports2021].
 */
export const laboratorySalinity = 0.001;

/**
 * Standard deviation of the standardisation error of a laboratory run, ppm. Ampoules alone scatter by 0.0003 in salinity, 8 ppm
 * [KawanoEtAl2006]. The stations of a good cruise moved by 19 ppm, in both cells alike [CruiseReports2022]. Other laboratories
 * differ by a factor of two (judgement).
 */
export const usualRun_ppm = 18;

/**
 * Distance between the water in the bottle and the water at the cell, dbar: standard deviation about the common value of
 * the cruise's bottles. Bottles have been found to hold water from up to about 5 m deeper after short stops
 * [Codispoti1998]; half of that as the ordinary case is our judgement.
 */
const closureMismatch_dbar = 2.5;

/**
 * The common value: on the way up the wake of the frame carries water from below. Prior mean and standard deviation, dbar,
 * positive from below; the cruise's own bottles update it (judgement, from the same).
 */
export const wakeDepth_dbar = { mean: 1, sd: 1.5 };

/** Weight of the prior of a scale, in bottles (judgement: less than one rosette). */
const priorBottles = 10;
/**
 * Number of iterations. More would change the error of a bottle by a tenth at most, because the smaller part converges slowly.
 */
const rounds = 8;

/** Scales of the two parts of a bottle's error, each relative to its usual size. */
export interface BottleNoise {
  /** At least 1: small scatter in calm water is no evidence of a laboratory better than the best. */
  readonly laboratory: number;
  readonly gradient: number;
}

export const usualBottleNoise: BottleNoise = { laboratory: 1, gradient: 1 };

/** Usual size of the two parts of a bottle's error, in one unit. */
interface ErrorParts {
  readonly laboratory: number;
  readonly gradient: number;
}

/**
 * Standard deviation of the closure mismatch of one bottle, PSS-78, before the cruise's scale.
 * @param mismatches factor on the usual mismatch: larger for a bottle closed on the fly
 */
export function mismatchSalinity(salinityGradient_per_dbar: number, mismatches = 1): number {
  return Math.abs(salinityGradient_per_dbar) * closureMismatch_dbar * mismatches;
}

/**
 * A bottle closed on the fly was not flushed: it holds water from this many times the usual mismatch. Stops of two minutes
 * can be needed for a sample of the place [PaverEtAl2020]; twice the ordinary case is our judgement.
 */
export const mismatchesOnTheFly = 2;

/** Standard deviation of a bottle's ordinary error with the cruise's scales, in the unit of its parts. */
export function ordinaryError(parts: ErrorParts, noise: BottleNoise): number {
  return Math.hypot(parts.laboratory * noise.laboratory, parts.gradient * noise.gradient);
}

/** A bottle about the centre of its cast, all in ppm. */
export interface Departure extends ErrorParts {
  /** Residual, corrected for the degrees of freedom of its cast's fit. */
  readonly residual: number;
  /** Uncertainty of the CTD reading, which no scale changes. */
  readonly reading: number;
}

/**
 * A cast that scatters more than this many times the noise so far counts only as this many: its samples may be spoilt
 * (judgement).
 */
const mostOfOneCast = 2;

/** The departures of a cast for the cruise's noise; those of a cast with far more scatter are reduced. */
export function limited(
  departures: readonly Departure[],
  before: BottleNoise,
): readonly Departure[] {
  const widest = { laboratory: before.laboratory, gradient: Math.max(1, before.gradient) };
  const sizes = departures.map((one) => Math.abs(one.residual) / errorOf(one, widest));
  const scatter =
    toNormal *
    weightedMedian(
      sizes,
      departures.map(() => 1),
    );
  if (!(scatter > mostOfOneCast)) return departures;
  return departures.map((one) => ({ ...one, residual: (one.residual * mostOfOneCast) / scatter }));
}

/**
 * The scatter of this cruise's bottles. For each part a bottle is weighted by the share of that part in its variance. So
 * bottles in calm deep water give the scale of the laboratory, bottles in gradients that of the mismatch. The prior of both
 * scales is the scatter of all bottles together, if that is more than usual: with few bottles, the cause of the scatter is
 * not known.
 * @param departures of the casts so far
 * @returns 1 and 1 without departures; the robust scales as they become numerous
 */
export function bottleNoise(departures: readonly Departure[]): BottleNoise {
  const all = departures.map(() => 1);
  const together = Math.max(1, towards(1, scatterIn(departures, usualBottleNoise, all), all));
  let noise: BottleNoise = { laboratory: together, gradient: together };
  for (let round = 0; round < rounds; round++) {
    noise = {
      laboratory: Math.max(1, scaleOf(departures, noise, "laboratory", together)),
      gradient: scaleOf(departures, noise, "gradient", together),
    };
  }
  return noise;
}

/** The next estimate of one scale, from the bottles in which that part matters. */
function scaleOf(
  departures: readonly Departure[],
  noise: BottleNoise,
  part: keyof BottleNoise,
  prior: number,
): number {
  const weights = departures.map((one) => ((one[part] * noise[part]) / errorOf(one, noise)) ** 2);
  return towards(prior, noise[part] * scatterIn(departures, noise, weights), weights);
}

/** Robust standard deviation of the departures in units of their errors. */
function scatterIn(
  departures: readonly Departure[],
  noise: BottleNoise,
  weights: readonly number[],
): number {
  const sizes = departures.map((one) => Math.abs(one.residual) / errorOf(one, noise));
  return toNormal * weightedMedian(sizes, weights);
}

/** A scale between the prior and the observed one, by the number of bottles, which is the sum of their weights. */
function towards(prior: number, observed: number, weights: readonly number[]): number {
  const seen = madEfficiency * weights.reduce((sum, weight) => sum + weight, 0);
  if (!(seen > 0)) return prior;
  return Math.sqrt((priorBottles * prior ** 2 + seen * observed ** 2) / (priorBottles + seen));
}

function errorOf(one: Departure, noise: BottleNoise): number {
  return Math.hypot(ordinaryError(one, noise), one.reading);
}
