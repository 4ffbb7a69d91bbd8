// What the heat stored in the cell's wall does to salinity: a cell that comes from warm water reads salty,
// one that comes from cold water fresh, so the two legs are split in proportion to the temperature gradient.
import type { Layers } from "../../cast/averageByPressure.js";
import type { ScanClock } from "../../cast/scanClock.js";
import { usualLag } from "../../response/lag/usualLag.js";
import { spFromCFirstDerivatives } from "../../seawater/index.js";

/** Layers over which a leg's first change of temperature is taken (judgement: about one time constant). */
const startLayers = 5;

/**
 * The usual thermal lag's effect in each layer of one leg, in ppm of conductivity.
 * First-order response of the water in the cell to the change of temperature from layer to layer, exact for
 * a steady change between them [LueckPicklo1990]; a stop between two layers lets it die away.
 */
export function wallHeatOfLayers(layers: Layers, { seconds }: ScanClock): Float64Array {
  const { pressure_dbar, temperature_C, conductivity_mS_cm, firstScan } = layers;
  const effect = new Float64Array(pressure_dbar.length);
  const order = Uint32Array.from(firstScan, (_, k) => k).sort(
    (a, b) => firstScan[a]! - firstScan[b]!,
  );
  let warmer = steadyStart(layers, order, seconds);
  let before: number | undefined;
  for (const k of order) {
    if (before !== undefined) {
      const elapsed = seconds[firstScan[k]!]! - seconds[firstScan[before]!]!;
      const step = temperature_C[k]! - temperature_C[before]!;
      const kept = Math.exp(-elapsed / usualLag.tau_s);
      const response = elapsed > 0 ? ((1 - kept) * usualLag.tau_s) / elapsed : 1;
      warmer = warmer * kept + usualLag.alpha * step * response;
    }
    before = k;
    const c = conductivity_mS_cm[k]!;
    const { dSpDc, dSpDt } = spFromCFirstDerivatives(c, temperature_C[k]!, pressure_dbar[k]!);
    effect[k] = (1e6 * dSpDt * warmer) / (c * dSpDc);
  }
  return effect;
}

/**
 * The response to the change of temperature over the first layers as if it had gone on for long: what the leg
 * passed before is not known, and a response from nothing would be a wiggle of the model's own making.
 */
function steadyStart(
  { temperature_C, firstScan }: Layers,
  order: Uint32Array,
  seconds: Float64Array,
): number {
  const first = order[0];
  const later = order[Math.min(startLayers, order.length - 1)];
  if (first === undefined || later === undefined || first === later) return 0;
  const elapsed = seconds[firstScan[later]!]! - seconds[firstScan[first]!]!;
  const change = temperature_C[later]! - temperature_C[first]!;
  return elapsed > 0 ? (usualLag.alpha * usualLag.tau_s * change) / elapsed : 0;
}
