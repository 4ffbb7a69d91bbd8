// Layers of one leg that both cells have.
import type { Layers } from "./averageByPressure.js";

/**
 * @param thickness_dbar of the layers of both
 * @returns positions of each such layer among those of the one and of the other, shallowest first
 */
export function layersInCommon(
  one: Layers,
  other: Layers,
  thickness_dbar: number,
): readonly (readonly [number, number])[] {
  const layerOf = ({ pressure_dbar }: Layers, k: number) =>
    Math.floor(pressure_dbar[k]! / thickness_dbar);
  const found: [number, number][] = [];
  let j = 0;
  for (let k = 0; k < one.count.length; k++) {
    const layer = layerOf(one, k);
    while (j < other.count.length && layerOf(other, j) < layer) j++;
    if (j < other.count.length && layerOf(other, j) === layer) found.push([k, j]);
  }
  return found;
}
