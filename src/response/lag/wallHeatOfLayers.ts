// The effect of the heat stored in the cell's wall on salinity. A cell from warm water reads salty, one from cold water
// fresh, so the two legs differ in proportion to the temperature gradient.
import type { Layers } from "../../cast/averageByPressure.js";
import type { ScanClock } from "../../cast/scanClock.js";
import { spFromCFirstDerivatives } from "../../seawater/index.js";
import type { CellLag } from "./lagPrior.js";
import { standingAndMoving, wallHeatAfter } from "./wallHeat.js";

/** Layers over which a leg's first change of temperature is taken (judgement: about one time constant). */
const startLayers = 5;

/**
 * The effect of a thermal lag on each layer of one leg, ppm of conductivity.
 * @param before the leg before, whose heat the cell still holds; without it the water before is unknown
 */
export function wallHeatOfLayers(
  layers: Layers,
  clock: ScanClock,
  { alpha, tau_s }: CellLag,
  before?: Layers,
): Float64Array {
  const passage = passageOf(layers, clock);
  const { rise, fall } = passage;
  const effect = new Float64Array(rise.length);
  const start = before && afterTurn(before, layers, clock, tau_s);
  passThrough(passage, tau_s, start, (k, warmer) => {
    effect[k] = (rise[k]! * alpha * warmer) / fall[k]!;
  });
  return effect;
}

/** The temperature outside less that in the cell over the amplitude, K, from layer to layer. @returns the last */
function passThrough(
  { order, standing_s, moving_s, change_K, firstChange_K_s }: Passage,
  tau_s: number,
  start: number | undefined,
  at: (layer: number, warmer_K: number) => void,
): number {
  let warmer = start ?? tau_s * firstChange_K_s;
  for (let n = 0; n < order.length; n++) {
    if (n > 0) warmer = wallHeatAfter(warmer, standing_s[n]!, moving_s[n]!, change_K[n]!, tau_s);
    at(order[n]!, warmer);
  }
  return warmer;
}

/** The same at the first layer of a leg, after the leg before and the turn; undefined if the times are not in this order. */
function afterTurn(
  before: Layers,
  layers: Layers,
  clock: ScanClock,
  tau_s: number,
): number | undefined {
  const passage = passageOf(before, clock);
  const last = passage.order.at(-1);
  const first = passageOf(layers, clock).order[0];
  if (last === undefined || first === undefined) return undefined;
  const at_s = (own: Layers, layer: number) => clock.seconds[own.firstScan[layer]!]!;
  const elapsed = at_s(layers, first) - at_s(before, last);
  if (!(elapsed > 0)) return undefined;
  const way = Math.abs(layers.pressure_dbar[first]! - before.pressure_dbar[last]!);
  const { standing_s, moving_s } = standingAndMoving(elapsed, way, clock.rate_dbar_s);
  const change = layers.temperature_C[first]! - before.temperature_C[last]!;
  const warmer = passThrough(passage, tau_s, undefined, () => {});
  return wallHeatAfter(warmer, standing_s, moving_s, change, tau_s);
}

/** One leg from layer to layer, in the order in which it passed them; one value a layer, of the way to it. */
interface Passage {
  /** Positions among the layers. */
  readonly order: Uint32Array;
  readonly standing_s: Float64Array;
  readonly moving_s: Float64Array;
  /** How the temperature outside changed, K. */
  readonly change_K: Float64Array;
  readonly firstChange_K_s: number;
  /** By layer: their ratio is what a cell that is one K too cold reads more, ppm. */
  readonly rise: Float64Array;
  readonly fall: Float64Array;
}

/** The same layers are asked for with several lags. */
const known = new WeakMap<Layers, { readonly clock: ScanClock; readonly passage: Passage }>();

function passageOf(layers: Layers, clock: ScanClock): Passage {
  const found = known.get(layers);
  if (found?.clock === clock) return found.passage;
  const passage = passed(layers, clock);
  known.set(layers, { clock, passage });
  return passage;
}

function passed(layers: Layers, { seconds, rate_dbar_s }: ScanClock): Passage {
  const { pressure_dbar, temperature_C, conductivity_mS_cm, firstScan } = layers;
  const n = pressure_dbar.length;
  const column = () => new Float64Array(n);
  const order = inOrderOfTime(firstScan);
  const [standing_s, moving_s, change_K] = [column(), column(), column()];
  const [rise, fall] = [column(), column()];
  const at_s = (k: number) => seconds[firstScan[k]!]!;
  for (let j = 0; j < n; j++) {
    const k = order[j]!;
    const c = conductivity_mS_cm[k]!;
    const { dSpDc, dSpDt } = spFromCFirstDerivatives(c, temperature_C[k]!, pressure_dbar[k]!);
    rise[k] = 1e6 * dSpDt;
    fall[k] = c * dSpDc;
    if (j === 0) continue;
    const before = order[j - 1]!;
    const way = Math.abs(pressure_dbar[k]! - pressure_dbar[before]!);
    const time = standingAndMoving(at_s(k) - at_s(before), way, rate_dbar_s);
    standing_s[j] = time.standing_s;
    moving_s[j] = time.moving_s;
    change_K[j] = temperature_C[k]! - temperature_C[before]!;
  }
  const firstChange_K_s = firstChange(layers, order, at_s);
  return { order, standing_s, moving_s, change_K, firstChange_K_s, rise, fall };
}

/** Positions by rising scan: nearly always those of the layers from the top, or from the bottom. */
function inOrderOfTime(scan: Uint32Array): Uint32Array {
  const order = Uint32Array.from(scan, (_, k) => k);
  const steps = (direction: 1 | -1) => {
    for (let k = 1; k < scan.length; k++) {
      if (!(direction * (scan[k]! - scan[k - 1]!) > 0)) return false;
    }
    return true;
  };
  if (steps(1)) return order;
  if (steps(-1)) return order.reverse();
  return order.sort((a, b) => scan[a]! - scan[b]!);
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
