// The possible change of the water from the last deep cast to this one, and whether it is different water.
import { least } from "d3-array";
import type { Cast } from "../../cast/cast.js";
import type { DeepReference } from "../../cast/deepReference.js";
import { usualRun_ppm } from "../bottles/bottleNoise.js";
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

/** The gain of the first cell by the bottles of a cast, ppm; the variance without the error of their laboratory run. */
export interface GainByBottles {
  readonly ppm: number;
  readonly variance_ppm2: number;
}

/** What is known of a cast beside its deep water. */
interface CastBeside {
  readonly position?: Position;
  readonly gain?: GainByBottles;
}

/** The parts of a cast that the next one needs. */
export interface DeepLast extends CastBeside {
  readonly means: readonly DeepLegMean[];
  /** Mean pressure of its calm layer. */
  readonly pressure_dbar: number;
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
  { position, gain }: CastBeside,
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
  const { ppm, variance } = withoutGain(smallest(moved)!, gain, last.gain);
  const restart = isAnotherWater(moved, walk_ppm2);
  return {
    step: restart ? begin : { walk_ppm2, restart },
    difference: { standardised: ppm / Math.sqrt(usual), errors: variance / usual },
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

/**
 * The movement without that of the gain which the bottles of both casts show, if it is smaller. Otherwise a film that grows in
 * both cells looks like restless water, and the deep water loses its weight.
 */
function withoutGain(
  moved: Movement,
  now: GainByBottles | undefined,
  then: GainByBottles | undefined,
): Pick<Movement, "ppm" | "variance"> {
  if (now === undefined || then === undefined) return moved;
  const ppm = moved.ppm - (now.ppm - then.ppm);
  if (Math.abs(ppm) > Math.abs(moved.ppm)) return moved;
  const errors = now.variance_ppm2 + then.variance_ppm2 + 2 * usualRun_ppm ** 2;
  return { ppm, variance: moved.variance + errors };
}

/**
 * By cell, the least of: from the last leg of the last cast to the first of this one, which excludes changes within a cast; and
 * from leg to the same leg, which excludes thermal lag.
 */
function movements(means: readonly DeepLegMean[], last: DeepLast): readonly Movement[] {
  return (["primary", "secondary"] as const).flatMap((cell) => {
    const now = means.filter((mean) => mean.cell === cell);
    const then = last.means.filter((mean) => mean.cell === cell);
    const pairs = [
      [then.at(-1), now[0]] as const,
      ...now.map((mean) => [then.find(({ leg }) => leg === mean.leg), mean] as const),
    ];
    const found = pairs.flatMap(([before, after]): Movement[] =>
      before === undefined || after === undefined
        ? []
        : [
            {
              ppm: after.value_ppm - before.value_ppm,
              variance: after.variance_ppm2 + before.variance_ppm2,
              unevenness: after.scatter_ppm / before.scatter_ppm,
            },
          ],
    );
    return smallest(found) ?? [];
  });
}

function smallest(moved: readonly Movement[]): Movement | undefined {
  return least(moved, (a, b) => Math.abs(a.ppm) - Math.abs(b.ppm));
}

/** An equal step of both cells may be water or a film in both: the causes decide between them. */
function isAnotherWater(moved: readonly Movement[], walk_ppm2: number): boolean {
  const large = moved.every(
    ({ ppm, variance }) => Math.abs(ppm) > beyondChance * Math.sqrt(walk_ppm2 + variance),
  );
  return large && moved.every(({ unevenness }) => unevenness > uneven);
}
