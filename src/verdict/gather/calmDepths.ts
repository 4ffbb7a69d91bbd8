// The best depths at this station for a bottle: the calmest water near the surface, in the middle and at depth.
import type { Cast } from "../../cast/cast.js";
import { joinLayers } from "../../cast/joinLayers.js";
import { type Legs, splitLegs } from "../../cast/splitLegs.js";
import { type ThinLayers, thinLayers } from "../../cast/thinLayers.js";
import { steeperSlope } from "../../evidence/bottles/salinityGradients.js";
import { type Observation, sharedWeight } from "../../model/observation.js";
import { ppmPerSalinity } from "../../seawater/ppmPerSalinity.js";

export interface BottleDepth {
  readonly pressure_dbar: number;
  readonly water: NonNullable<Observation["water"]>;
  /** dSP/dp, per dbar, positive if salinity increases downward. */
  readonly salinityGradient_per_dbar: number;
}

/** Resolution of a stop: this many dbar, or this fraction of the layers of the cast; one stop in each third (judgement). */
const finest_dbar = 10;
const layersOfCast = 60;
const parts = 3;

/**
 * At most three depths, shallowest first: one in each third of the pressure range of the cast, at the smallest vertical
 * gradient of salinity.
 * @param cast    its scans; the stops of its bottles are used if it has none
 * @param bottles observations of the line `bottles`
 */
export function calmDepths(
  cast: Cast | undefined,
  bottles: readonly Observation[],
): readonly BottleDepth[] {
  const fromScans = cast === undefined ? [] : calmDepthsOfScans(cast);
  return fromScans.length > 0 ? fromScans : calmDepthsOfBottles(bottles);
}

/** @param bottles observations of the line `bottles` */
export function calmDepthsOfBottles(bottles: readonly Observation[]): readonly BottleDepth[] {
  return calmOf(depthsOfBottles(bottles));
}

/**
 * @param legs of the cast
 * @param thin as from `thinLayers`
 */
export function calmDepthsOfScans(
  cast: Cast,
  legs = splitLegs(cast),
  thin = thinLayers(cast, legs),
): readonly BottleDepth[] {
  return calmOf(depthsOfScans(cast, legs, thin));
}

function calmOf(depths: readonly BottleDepth[]): readonly BottleDepth[] {
  const deepest = Math.max(0, ...depths.map(({ pressure_dbar }) => pressure_dbar));
  return Array.from({ length: parts }, (_, part) => {
    const within = depths.filter(
      ({ pressure_dbar: p }) => Math.min(parts - 1, Math.floor((parts * p) / deepest)) === part,
    );
    return calmest(within);
  }).filter((depth) => depth !== undefined);
}

function calmest(depths: readonly BottleDepth[]): BottleDepth | undefined {
  const steepness = (depth: BottleDepth) => Math.abs(depth.salinityGradient_per_dbar);
  return depths.reduce<BottleDepth | undefined>(
    (best, depth) => (best === undefined || steepness(depth) < steepness(best) ? depth : best),
    undefined,
  );
}

/**
 * The layers of the up leg, or of the down leg if the file ends there; each with the steeper gradient to its neighbours.
 */
function depthsOfScans(cast: Cast, legs: Legs, thin: ThinLayers): readonly BottleDepth[] {
  const cell = cast.columns.primary === undefined ? "secondary" : "primary";
  const leg = legs.up.length > 0 ? "up" : "down";
  const thickness = Math.max(finest_dbar, thin.deepest_dbar / layersOfCast);
  const { pressure_dbar, temperature_C, conductivity_mS_cm, salinity } = joinLayers(
    thin.of(leg, cell),
    thickness,
  );
  const layers = Array.from(pressure_dbar, (pressure, k) => {
    const water = {
      conductivity_mS_cm: conductivity_mS_cm[k]!,
      temperature_C: temperature_C[k]!,
    };
    return { pressure_dbar: pressure, water, salinity: salinity[k]! };
  }).filter(({ salinity }) => salinity > 0);
  return layers.map(({ pressure_dbar, water }, i) => ({
    pressure_dbar,
    water,
    salinityGradient_per_dbar: steeperSlope(layers, i),
  }));
}

/** The wake error of a bottle contains the gradient at its closure. */
function depthsOfBottles(bottles: readonly Observation[]): readonly BottleDepth[] {
  return bottles.flatMap((bottle) => {
    const { pressure_dbar, water } = bottle;
    if (water === undefined) return [];
    const { conductivity_mS_cm, temperature_C } = water;
    const perSalinity = ppmPerSalinity(conductivity_mS_cm, temperature_C, pressure_dbar);
    const salinityGradient_per_dbar = -sharedWeight(bottle, "wake") / perSalinity;
    return [{ pressure_dbar, water, salinityGradient_per_dbar }];
  });
}
