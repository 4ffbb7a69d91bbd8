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
 * Fresh water is patchy, and it lies on top. Between the legs the salinity at the surface changes by the first share of what
 * it lacks against the ocean, and by the second of what it lacks against the saltiest water within `reach_dbar` below. Half
 * of that again differs from layer to layer (judgement: where salinity changes by one in a kilometre, half a knot changes it
 * by 0.015 in a minute).
 */
const fresh = {
  ofOcean: 35,
  shareOfOcean: 0.004,
  shareOfBelow: 0.1,
  reach_dbar: 100,
  byLayer: 0.5,
};

/** Where other water came between the legs, the change reaches through the thermocline: the depth of 1/e, dbar (judgement). */
export const thermocline_dbar = 600;

/** Layers of a leg, shallowest first; one value for each in every column. */
interface Water {
  readonly pressure_dbar: Float64Array;
  readonly salinity: Float64Array;
  /** ppm of conductivity per unit of salinity. */
  readonly ppmPerSalinity: Float64Array;
}

/** Standard deviation of the change of each layer because the water there is fresh, ppm. */
export function freshChange_ppm({ pressure_dbar, salinity, ppmPerSalinity }: Water): Float64Array {
  return pressure_dbar.map((pressure, k) => {
    const own = salinity[k]!;
    let below = own;
    for (let j = k + 1; pressure_dbar[j]! < pressure + fresh.reach_dbar; j++) {
      below = Math.max(below, salinity[j]!);
    }
    const change =
      fresh.shareOfOcean * Math.max(0, fresh.ofOcean - own) + fresh.shareOfBelow * (below - own);
    return change * ppmPerSalinity[k]! * shareAtPressure(pressure);
  });
}

/** The usual change as a share of `surface_ppm`, alike in all layers and cells. */
export function shareOfUpperWater(pressure_dbar: number, freshChange_ppm: number): number {
  return Math.hypot(shareAtPressure(pressure_dbar), freshChange_ppm / upperWater.surface_ppm);
}

/** Standard deviation of the change that differs from layer to layer, ppm. */
export function changeOfLayer_ppm(freshChange_ppm: number): number {
  return fresh.byLayer * freshChange_ppm;
}

/** Other water on the up leg differs more where the water is fresh: the factor. */
export function timesInFreshWater(freshChange_ppm: number): number {
  return Math.hypot(1, freshChange_ppm / upperWater.surface_ppm);
}

function shareAtPressure(pressure_dbar: number): number {
  return Math.exp(-pressure_dbar / upperWater.depth_dbar);
}

/** The same for other water through the thermocline. */
export function shareOfThermocline(pressure_dbar: number): number {
  return Math.exp(-pressure_dbar / thermocline_dbar);
}
