// The possible change of the water from the last deep cast to this one, and whether it is different water.
import type { Cast } from "../../cast/cast.js";
import type { DeepReference } from "../../cast/deepReference.js";
import type { CalmLayer } from "./calmLayer.js";
import type { DeepLegMean } from "./deepLayerMean.js";
import { ppmPerSalinityOf } from "./deepProfile.js";
import {
  type DeepDifference,
  type DeepWaterStep,
  distanceFactor,
  type Position,
  stepScale,
  usualStep,
} from "./deepWaterNoise.js";

/** The parts of a cast that the next one needs. */
export interface DeepLast {
  readonly means: readonly DeepLegMean[];
  /** Mean pressure of its calm layer. */
  readonly pressure_dbar: number;
  readonly position?: Position;
}

/**
 * Initial standard deviation of the difference between water and curve, ppm; it also covers the gain of the first cast
 * (judgement: beyond any).
 */
const unknown_ppm = 3000;
/** A step beyond this many standard deviations is unusual (judgement). */
const beyondChance = 4;
/**
 * A film changes all classes by the same ratio; if they scatter this many times more than on the last cast, the water is
 * different (judgement).
 */
const uneven = 3;

const begin: DeepWaterStep = { walk_ppm2: unknown_ppm ** 2, restart: true };

/** The step relative to the cruise's own curve. */
export function ownStep(
  means: readonly DeepLegMean[],
  layer: CalmLayer,
  position: Position | undefined,
  last: DeepLast | undefined,
  differences: readonly DeepDifference[],
): { readonly step: DeepWaterStep; readonly difference: DeepDifference | undefined } {
  if (last === undefined) return { step: begin, difference: undefined };
  const shallower = Math.min(layer.pressure_dbar, last.pressure_dbar);
  const usual =
    (usualStep(shallower) * ppmPerSalinityOf(means[0]!.water)) ** 2 *
    distanceFactor(last.position, position);
  const walk_ppm2 = stepScale(differences) * usual;
  const moved = movements(means, last);
  if (moved.length === 0) return { step: { walk_ppm2, restart: false }, difference: undefined };
  const mean = moved.reduce((sum, { ppm }) => sum + ppm, 0) / moved.length;
  const errors = moved.reduce((sum, { variance }) => sum + variance, 0) / moved.length ** 2;
  const restart = isAnotherWater(moved, walk_ppm2);
  return {
    step: restart ? begin : { walk_ppm2, restart },
    difference: { standardised: mean / Math.sqrt(usual), errors: errors / usual },
  };
}

/**
 * The step relative to a table. The error of the table is the same for all casts, so it is drawn once. The difference of
 * the water from it is a random walk.
 */
export function tableStep(
  { potentialTemperature_C, rowUncertainty, standardUncertainty, walk = 0 }: DeepReference,
  { water }: DeepLegMean,
  last: DeepLast | undefined,
): DeepWaterStep {
  const perSalinity = ppmPerSalinityOf(water);
  if (last !== undefined) return { walk_ppm2: (walk * perSalinity) ** 2, restart: false };
  // Potential temperature is within a fraction of a kelvin of temperature, so the nearest row is good enough.
  let nearest = 0;
  for (let i = 0; i < potentialTemperature_C.length; i++) {
    const away = (k: number) => Math.abs(potentialTemperature_C[k]! - water.temperature_C);
    if (away(i) < away(nearest)) nearest = i;
  }
  const own = rowUncertainty[nearest]!;
  const uncertainty = Number.isFinite(own) ? own : standardUncertainty;
  return { walk_ppm2: (uncertainty * perSalinity) ** 2 + (walk * perSalinity) ** 2, restart: true };
}

export function positionOf({ latitude, longitude }: Cast): Position | undefined {
  return latitude === undefined || longitude === undefined ? undefined : { latitude, longitude };
}

interface Movement {
  readonly ppm: number;
  /** Variance of the readings, ppm squared. */
  readonly variance: number;
  /** Scatter of the classes now, relative to the last cast. */
  readonly unevenness: number;
}

/** By cell, from the last leg of the last cast to the first of this one, so that changes within a cast are excluded. */
function movements(means: readonly DeepLegMean[], last: DeepLast): readonly Movement[] {
  return (["primary", "secondary"] as const).flatMap((cell) => {
    const now = means.find((mean) => mean.cell === cell);
    const then = last.means.findLast((mean) => mean.cell === cell);
    if (now === undefined || then === undefined) return [];
    return [
      {
        ppm: now.value_ppm - then.value_ppm,
        variance: now.variance_ppm2 + then.variance_ppm2,
        unevenness: now.scatter_ppm / then.scatter_ppm,
      },
    ];
  });
}

/** An equal step of both cells may be water or a film in both: the causes decide between them. */
function isAnotherWater(moved: readonly Movement[], walk_ppm2: number): boolean {
  const large = moved.every(
    ({ ppm, variance }) => Math.abs(ppm) > beyondChance * Math.sqrt(walk_ppm2 + variance),
  );
  return large && moved.every(({ unevenness }) => unevenness > uneven);
}
