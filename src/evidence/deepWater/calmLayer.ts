// The calm layer of a cast: the classes of potential temperature in the reference curve whose salinity differs least
// between stations.
import { sum } from "d3-array";
import { madScale } from "../../statistics/madScale.js";
import type { RunningCurve } from "./deepCurve.js";
import { classWidth_K, type DeepClass } from "./deepProfile.js";
import { usualStep } from "./deepWaterNoise.js";

export interface CalmLayer {
  /** Weights by class, 1 / the variance of salinity there. */
  readonly weights: ReadonlyMap<number, number>;
  /** Potential temperature, degree C. */
  readonly coldest_C: number;
  readonly warmest_C: number;
  /** Weighted mean, dbar. */
  readonly pressure_dbar: number;
}

/** Classes with up to this many times the variability of the calmest belong to the layer (judgement). */
const asCalm = 2;
/** With fewer classes, or a thinner layer, an outlying level cannot be recognised (judgement). */
const leastClasses = 3;
const least_dbar = 100;
/** The usual variability counts as this many casts (judgement). */
const usualCounts = 4;

/**
 * @param classes of one leg
 * @returns undefined if the curve covers too little of its water
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

/**
 * Standard deviation of salinity in a class from cast to cast, PSS-78: the usual for its depth combined with the observed.
 */
function variability({ index, pressure_dbar }: DeepClass, { curve, held }: RunningCurve): number {
  const seen = held.flatMap((cast) => cast.get(index) ?? []);
  const usual = usualStep(pressure_dbar) ** 2;
  // Two values do not give a useful scatter (judgement).
  if (seen.length < 3) return Math.sqrt(usual);
  const own = madScale(seen, curve.get(index)!) ** 2;
  return Math.sqrt((usualCounts * usual + seen.length * own) / (usualCounts + seen.length));
}
