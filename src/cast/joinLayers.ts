// Join thin layers into thicker ones; each scan still counts once.
import { type Layers, withSalinity } from "./averageByPressure.js";

/**
 * @param layers   as from `averageByPressure`
 * @param thickness_dbar required thickness, a whole multiple of that of the given layers
 */
export function joinLayers(layers: Layers, thickness_dbar: number): Layers {
  const { pressure_dbar, temperature_C, conductivity_mS_cm, count, firstScan } = layers;
  const starts: number[] = [];
  let last = Number.NaN;
  for (let k = 0; k < count.length; k++) {
    const layer = Math.floor(pressure_dbar[k]! / thickness_dbar);
    if (layer !== last) starts.push(k);
    last = layer;
  }
  const joined = {
    pressure_dbar: new Float64Array(starts.length),
    temperature_C: new Float64Array(starts.length),
    conductivity_mS_cm: new Float64Array(starts.length),
    count: new Uint32Array(starts.length),
    firstScan: new Uint32Array(starts.length),
  };
  for (let j = 0; j < starts.length; j++) {
    const from = starts[j]!;
    const to = starts[j + 1] ?? count.length;
    let [n, p, t, c] = [0, 0, 0, 0];
    let first = firstScan[from]!;
    for (let k = from; k < to; k++) {
      n += count[k]!;
      p += count[k]! * pressure_dbar[k]!;
      t += count[k]! * temperature_C[k]!;
      c += count[k]! * conductivity_mS_cm[k]!;
      first = Math.min(first, firstScan[k]!);
    }
    joined.pressure_dbar[j] = p / n;
    joined.temperature_C[j] = t / n;
    joined.conductivity_mS_cm[j] = c / n;
    joined.count[j] = n;
    joined.firstScan[j] = first;
  }
  return { ...withSalinity(joined), spikes: layers.spikes };
}
