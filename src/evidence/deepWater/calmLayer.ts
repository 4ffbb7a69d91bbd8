// The calm layer of a cast: those classes of potential temperature, known from the reference curve, in which salinity
// differs least between stations.
import { sum } from "d3-array";
import { madScale } from "../../statistics/madScale.js";
import type { RunningCurve } from "./deepCurve.js";
import { classWidth_K, type DeepClass } from "./deepProfile.js";
import { usualStep } from "./deepWaterNoise.js";

export interface CalmLayer {
  /** Weights by class, 1 / the variance of salinity there. */
  readonly weights: ReadonlyMap<number, number>;
  /** Degree C, potential. */
  readonly coldest_C: number;
  readonly warmest_C: number;
  /** Weighted mean, dbar. */
  readonly pressure_dbar: number;
}

/** Classes that vary by up to so many times the calmest are of the layer (judgement). */
const asCalm = 2;
/** Fewer classes, or a thinner layer, cannot be told from a wild level (judgement). */
const leastClasses = 3;
const least_dbar = 100;
/** The usual variability counts as so many casts (judgement). */
const usualCounts = 4;

/**
 * @param classes of one leg
 * @returns undefined where too little of its water is known from the curve
 */
export function calmLayer(
  classes: readonly DeepClass[],
  running: RunningCurve,
): CalmLayer | undefined {
  const known = classes
    .filter(({ index }) => running.curve.has(index))
    .map((own) => ({ ...own, scatter: variability(own, running) }));
  const calmest = Math.min(...known.map(({ scatter }) => scatter));
  const layer = known.filter(({ scatter }) => scatter <= asCalm * calmest);
  const pressures = layer.map(({ pressure_dbar }) => pressure_dbar);
  const thickness = Math.max(...pressures) - Math.min(...pressures);
  if (layer.length < leastClasses || !(thickness >= least_dbar)) return undefined;
  const weights = new Map(layer.map(({ index, scatter }) => [index, 1 / scatter ** 2]));
  const pressure = sum(layer, (own) => weights.get(own.index)! * own.pressure_dbar);
  return {
    weights,
    coldest_C: layer[0]!.index * classWidth_K,
    warmest_C: (layer.at(-1)!.index + 1) * classWidth_K,
    pressure_dbar: pressure / sum(weights.values()),
  };
}

/** Standard deviation of salinity in a class from cast to cast, PSS-78: usual for its depth, and as seen. */
function variability({ index, pressure_dbar }: DeepClass, { curve, held }: RunningCurve): number {
  const seen = held.flatMap((cast) => cast.get(index) ?? []);
  const usual = usualStep(pressure_dbar) ** 2;
  // Two values have no scatter of their own to speak of (judgement).
  if (seen.length < 3) return Math.sqrt(usual);
  const own = madScale(seen, curve.get(index)!) ** 2;
  return Math.sqrt((usualCounts * usual + seen.length * own) / (usualCounts + seen.length));
}
