// One leg minus the reference curve: the mean over the calm layer, without stray classes.
import type { CellName, LegName } from "../../cast/cast.js";
import { madScale } from "../../statistics/madScale.js";
import { biweight } from "../../statistics/robustRegression.js";
import { weightedMedian } from "../../statistics/weightedMedian.js";
import type { CalmLayer } from "./calmLayer.js";
import type { DeepCurve } from "./deepCurve.js";
import { type DeepClass, ppmPerSalinityOf } from "./deepProfile.js";

interface DeepMean {
  readonly value_ppm: number;
  /** Variance from the scatter of the classes alone. */
  readonly variance_ppm2: number;
  /** Standard deviation of the classes about the mean, ppm. */
  readonly scatter_ppm: number;
  /** The class nearest the mean pressure. */
  readonly water: DeepClass;
}

export interface DeepLegMean extends DeepMean {
  readonly cell: CellName;
  readonly leg: LegName;
}

/** Prior scatter of the classes, ppm, and its weight as a number of classes (judgement). */
const usual = { scatter_ppm: 8, classes: 3 };
/** Neighbouring classes are correlated: a mean of n is worth half as many (judgement). */
const alike = 2;
const leastClasses = 3;

/** @returns undefined if the leg has too few classes of the layer */
export function layerMean(
  classes: readonly DeepClass[],
  { weights }: CalmLayer,
  curve: DeepCurve,
): DeepMean | undefined {
  const own = classes.filter(({ index }) => weights.has(index) && curve.has(index));
  if (own.length < leastClasses) return undefined;
  const values = own.map(
    (water) => (water.salinity - curve.get(water.index)!) * ppmPerSalinityOf(water),
  );
  const prior = own.map(({ index }) => weights.get(index)!);
  const centre = weightedMedian(values, prior);
  const { scatter_ppm: expected, classes: counts } = usual;
  const scatter_ppm = Math.sqrt(
    (own.length * madScale(values, centre) ** 2 + counts * expected ** 2) / (own.length + counts),
  );
  const kept = prior.map((weight, k) => weight * biweight((values[k]! - centre) / scatter_ppm));
  const total = sum(kept, () => 1);
  const mean = (value: (k: number) => number) => sum(kept, value) / total;
  const pressure = mean((k) => own[k]!.pressure_dbar);
  const effective = total ** 2 / kept.reduce((all, weight) => all + weight ** 2, 0);
  return {
    value_ppm: mean((k) => values[k]!),
    variance_ppm2: (alike * scatter_ppm ** 2) / effective,
    scatter_ppm,
    water: own.reduce((best, next) =>
      Math.abs(next.pressure_dbar - pressure) < Math.abs(best.pressure_dbar - pressure)
        ? next
        : best,
    ),
  };
}

function sum(weights: readonly number[], value: (k: number) => number): number {
  return weights.reduce((all, weight, k) => all + weight * value(k), 0);
}
