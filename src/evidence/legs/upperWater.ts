// Usual changes of the upper water between the legs of a cast. Sun, rain and the tide change a mixed layer within an hour or two.

/**
 * Standard deviation at the surface, ppm: 0.004 in salinity; and the depth over which it falls to 1/e, dbar (judgement:
 * mixed layers are tens to a hundred metres deep).
 */
export const upperWater = {
  surface_ppm: 100,
  depth_dbar: 100,
};

/** Where other water came between the legs, the change reaches through the thermocline: the depth of 1/e, dbar (judgement). */
export const thermocline_dbar = 600;

/** The share of the change at the surface that remains at a pressure. */
export function shareOfUpperWater(pressure_dbar: number): number {
  return Math.exp(-pressure_dbar / upperWater.depth_dbar);
}

/** The same for other water through the thermocline. */
export function shareOfThermocline(pressure_dbar: number): number {
  return Math.exp(-pressure_dbar / thermocline_dbar);
}
