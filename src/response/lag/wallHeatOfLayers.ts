// The effect of the heat stored in the cell's wall on salinity. A cell from warm water reads salty, one from cold water
// fresh, so the two legs differ in proportion to the temperature gradient.
import type { Layers } from "../../cast/averageByPressure.js";
import type { ScanClock } from "../../cast/scanClock.js";
import { spFromCFirstDerivatives } from "../../seawater/index.js";
import type { CellLag } from "./usualLag.js";
import { standingAndMoving, wallHeatAfter } from "./wallHeat.js";

/** Layers over which a leg's first change of temperature is taken (judgement: about one time constant). */
const startLayers = 5;

/** The effect of a thermal lag on each layer of one leg, ppm of conductivity. */
export function wallHeatOfLayers(
  layers: Layers,
  { seconds, rate_dbar_s }: ScanClock,
  { alpha, tau_s }: CellLag,
): Float64Array {
  const { pressure_dbar, temperature_C, conductivity_mS_cm, firstScan } = layers;
  const effect = new Float64Array(pressure_dbar.length);
  const order = Uint32Array.from(firstScan, (_, k) => k).sort(
    (a, b) => firstScan[a]! - firstScan[b]!,
  );
  const at_s = (k: number) => seconds[firstScan[k]!]!;
  let warmer = tau_s * firstChange(layers, order, at_s);
  let before: number | undefined;
  for (const k of order) {
    if (before !== undefined) {
      const way = Math.abs(pressure_dbar[k]! - pressure_dbar[before]!);
      const change_K = temperature_C[k]! - temperature_C[before]!;
      const time = standingAndMoving(at_s(k) - at_s(before), way, rate_dbar_s);
      warmer = wallHeatAfter(warmer, { ...time, change_K }, tau_s);
    }
    before = k;
    const c = conductivity_mS_cm[k]!;
    const { dSpDc, dSpDt } = spFromCFirstDerivatives(c, temperature_C[k]!, pressure_dbar[k]!);
    effect[k] = (1e6 * dSpDt * alpha * warmer) / (c * dSpDc);
  }
  return effect;
}

/**
 * The rate over the first layers, K/s, is assumed to have lasted long. The water before is unknown, and a response that
 * starts from zero would have a larger error.
 */
function firstChange(
  { temperature_C }: Layers,
  order: Uint32Array,
  at_s: (layer: number) => number,
): number {
  const first = order[0];
  const later = order[Math.min(startLayers, order.length - 1)];
  if (first === undefined || later === undefined) return 0;
  const elapsed = at_s(later) - at_s(first);
  return elapsed > 0 ? (temperature_C[later]! - temperature_C[first]!) / elapsed : 0;
}
