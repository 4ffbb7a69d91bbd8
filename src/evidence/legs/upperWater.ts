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
 * Fresh water is patchy, and it lies on top. Let D be the deficit of a layer in salinity against the ocean (`ofOcean`). Between
 * the legs all layers change alike by `shareOfOcean` D. Each layer also changes on its own by `byLayer` times that (judgement:
 * where salinity changes by one in a kilometre, half a knot changes it by 0.015 in a minute), and by `shareOfBelow` of its
 * deficit against the saltiest water within `reach_dbar` below (judgement). All this falls with depth as `upperWater` does.
 */
const fresh = {
  ofOcean: 35,
  shareOfOcean: 0.004,
  byLayer: 0.5,
  shareOfBelow: 0.1,
  reach_dbar: 100,
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

/** Standard deviations of the change because the water is fresh, ppm; one for each layer. */
export interface FreshChange {
  /** Of the change that is alike in all layers. */
  readonly alike_ppm: Float64Array;
  /** Of the change that differs from layer to layer. */
  readonly own_ppm: Float64Array;
}

export function freshChange({ pressure_dbar, salinity, ppmPerSalinity }: Water): FreshChange {
  const inPpm = (change: (k: number) => number) =>
    pressure_dbar.map((p, k) => change(k) * ppmPerSalinity[k]! * shareAtPressure(p));
  const alike_ppm = inPpm((k) => fresh.shareOfOcean * Math.max(0, fresh.ofOcean - salinity[k]!));
  const againstBelow_ppm = inPpm((k) => {
    let below = salinity[k]!;
    for (let j = k + 1; pressure_dbar[j]! < pressure_dbar[k]! + fresh.reach_dbar; j++) {
      below = Math.max(below, salinity[j]!);
    }
    return fresh.shareOfBelow * (below - salinity[k]!);
  });
  return {
    alike_ppm,
    own_ppm: againstBelow_ppm.map((below, k) => Math.hypot(below, fresh.byLayer * alike_ppm[k]!)),
  };
}

/** The usual change as a share of `surface_ppm`, alike in all layers and cells. */
export function shareOfUpperWater(pressure_dbar: number, freshAlike_ppm: number): number {
  return Math.hypot(shareAtPressure(pressure_dbar), freshAlike_ppm / upperWater.surface_ppm);
}

/** Factor by which other water on the up leg differs more where the water is fresh; one for each layer. */
export function timesInFreshWater({ alike_ppm, own_ppm }: FreshChange): Float64Array {
  const { surface_ppm } = upperWater;
  return alike_ppm.map((alike, k) => Math.hypot(1, alike / surface_ppm, own_ppm[k]! / surface_ppm));
}

function shareAtPressure(pressure_dbar: number): number {
  return Math.exp(-pressure_dbar / upperWater.depth_dbar);
}

/** The same for other water through the thermocline. */
export function shareOfThermocline(pressure_dbar: number): number {
  return Math.exp(-pressure_dbar / thermocline_dbar);
}
