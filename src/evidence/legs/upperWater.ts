// Usual changes of the upper water between the legs of a cast. Sun, rain and the tide change a mixed layer within an hour or
// two. Where rivers or melting ice freshen it, it changes by much more, and within minutes.

/**
 * Standard deviation at the surface, ppm: 0.004 in salinity; and the depth over which it falls to 1/e, dbar (judgement:
 * mixed layers are tens to a hundred metres deep).
 */
export const upperWater = {
  surface_ppm: 100,
  depth_dbar: 100,
};

/**
 * Fresh water in the sea is patchy. At the surface, salinity changes between the legs by this share of what the water lacks
 * against the ocean; half of it again differs from layer to layer (judgement: where salinity changes by one in a kilometre,
 * half a knot changes it by 0.015 in a minute).
 */
const freshWater = { ofOcean: 35, share: 0.004, byLayer: 0.5 };

/** Where other water came between the legs, the change reaches through the thermocline: the depth of 1/e, dbar (judgement). */
export const thermocline_dbar = 600;

/** A layer of the cast. */
interface Water {
  readonly pressure_dbar: number;
  readonly salinity: number;
  /** ppm of conductivity per unit of salinity. */
  readonly ppmPerSalinity: number;
}

/** The usual change as a share of `surface_ppm`, alike in all layers and cells. */
export function shareOfUpperWater(water: Water): number {
  return Math.hypot(
    shareAtPressure(water.pressure_dbar),
    freshChange_ppm(water) / upperWater.surface_ppm,
  );
}

/** Standard deviation of the change that differs from layer to layer, ppm. */
export function changeOfLayer_ppm(water: Water): number {
  return freshWater.byLayer * freshChange_ppm(water);
}

/** Other water on the up leg differs more where the water is fresh: the factor. */
export function timesInFreshWater(water: Water): number {
  return Math.hypot(1, freshChange_ppm(water) / upperWater.surface_ppm);
}

function freshChange_ppm({ pressure_dbar, salinity, ppmPerSalinity }: Water): number {
  const missing = Math.max(0, freshWater.ofOcean - salinity);
  return freshWater.share * missing * ppmPerSalinity * shareAtPressure(pressure_dbar);
}

function shareAtPressure(pressure_dbar: number): number {
  return Math.exp(-pressure_dbar / upperWater.depth_dbar);
}

/** The same for other water through the thermocline. */
export function shareOfThermocline(pressure_dbar: number): number {
  return Math.exp(-pressure_dbar / thermocline_dbar);
}
