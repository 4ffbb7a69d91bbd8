// The effect of water that reaches a cell late, from the gradients of its layers.
import type { Layers } from "../../cast/averageByPressure.js";
import type { LegName } from "../../cast/cast.js";
import { ppmPerSalinity } from "../../seawater/ppmPerSalinity.js";

/**
 * The effect on a cell of water that arrives later, temperature and conductivity alike, by one dbar of the path, ppm: on the
 * way down it is water from above, on the way up from below.
 * @param layer position in the layers of the leg
 */
export function delayEffect(layers: Layers, layer: number, leg: LegName): number {
  const { conductivity_mS_cm, temperature_C, pressure_dbar } = layers;
  const perDbar = changePerDbar(layers, layers.salinity, layer);
  const change =
    ppmPerSalinity(conductivity_mS_cm[layer]!, temperature_C[layer]!, pressure_dbar[layer]!) *
    perDbar;
  return leg === "down" ? -change : change;
}

/** The change of a column with pressure about a layer; 0 for a layer alone. */
export function changePerDbar(
  { pressure_dbar }: Layers,
  column: Float64Array,
  layer: number,
): number {
  const before = Math.max(0, layer - 1);
  const after = Math.min(pressure_dbar.length - 1, layer + 1);
  const over = pressure_dbar[after]! - pressure_dbar[before]!;
  return over > 0 ? (column[after]! - column[before]!) / over : 0;
}
