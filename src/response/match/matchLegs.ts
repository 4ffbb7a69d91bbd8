// The up leg compared with the down leg in the same water. Internal waves move water up and down between the legs by metres
// to tens of metres. They do not change its potential temperature and salinity. So salinity is compared at equal potential
// temperature, not at equal pressure.
import type { Layers } from "../../cast/averageByPressure.js";
import type { Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import { ppmPerSalinity } from "../../seawater/ppmPerSalinity.js";
import { findWater, type Search } from "./findWater.js";

/**
 * Places where the two legs passed the same water, shallowest first; one value for each match in each column. Both legs are
 * matched to each other, because one direction alone favours one leg where temperature is rough.
 */
export interface MatchedLegs {
  /** Pressure of the water on the up leg and on the down leg, dbar. */
  readonly pressureUp_dbar: Float64Array;
  readonly pressureDown_dbar: Float64Array;
  /** Degree C, referred to 0 dbar. */
  readonly potentialTemperature_C: Float64Array;
  /** Salinity as read on each leg, PSS-78. */
  readonly salinityUp: Float64Array;
  readonly salinityDown: Float64Array;
  /** Up minus down in ppm of conductivity. */
  readonly difference_ppm: Float64Array;
  /** Range of salinity among the places of that temperature on the searched leg, ppm. */
  readonly ambiguity_ppm: Float64Array;
  /** ppm of conductivity per unit of salinity: 1e6 / (C dSP/dC). */
  readonly ppmPerSalinity: Float64Array;
  /** Thickness of the matched layers, dbar. */
  readonly thickness_dbar: number;
  /** Number of layers of either leg whose water was not found on the other. */
  readonly unmatched: number;
  /** Number of matches at equal pressure, because temperature is uniform. */
  readonly atPressure: number;
  /** Number of scans excluded as spikes on both legs. */
  readonly spikes: number;
}

/** The same water is searched within this, dbar, or a share of the cast (judgement: the heave of deep internal waves). */
const window_dbar = 50;
const windowShare = 1 / 8;
/** Salinities of one temperature that differ by this many times the scatter are from different waters (judgement). */
export const ambiguousBeyond = 4;
/** Water is not interpolated between layers further apart than this many thicknesses (judgement). */
const widestGap = 3;

/** @param thin precomputed by `thinLayers`, optional */
export function matchLegs(
  cast: Cast,
  legs: Legs,
  cell: CellName,
  thin = thinLayers(cast, legs),
): MatchedLegs {
  const { thickness_dbar, span_dbar } = thin;
  const [down, up] = [thin.of("down", cell), thin.of("up", cell)];
  const window = Math.min(window_dbar, windowShare * span_dbar.down);
  const search = { window_dbar: window, gap_dbar: widestGap * thickness_dbar };
  const ofUp = matchOneWay(up, down, search);
  const ofDown = matchOneWay(down, up, search);
  // Both directions in one order, from the columns of either: first those found for the up leg.
  const order = orderOf(ofUp, ofDown);
  const column = (first: Float64Array, second: Float64Array) => {
    const joined = new Float64Array(order.length);
    for (let k = 0; k < joined.length; k++) {
      const i = order[k]!;
      joined[k] = i < ofUp.count ? first[i]! : second[i - ofUp.count]!;
    }
    return joined;
  };
  const salinityUp = column(ofUp.salinity, ofDown.salinityOther);
  const salinityDown = column(ofUp.salinityOther, ofDown.salinity);
  const ppmPerSalinity = column(ofUp.ppmPerSalinity, ofDown.ppmPerSalinity);
  const spread = column(ofUp.spread, ofDown.spread);
  return {
    pressureUp_dbar: column(ofUp.pressure, ofDown.pressureOther),
    pressureDown_dbar: column(ofUp.pressureOther, ofDown.pressure),
    potentialTemperature_C: column(ofUp.theta, ofDown.theta),
    salinityUp,
    salinityDown,
    difference_ppm: times(less(salinityUp, salinityDown), ppmPerSalinity),
    ambiguity_ppm: times(spread, ppmPerSalinity),
    ppmPerSalinity,
    thickness_dbar,
    unmatched: up.count.length + down.count.length - order.length,
    atPressure: ofUp.atPressure + ofDown.atPressure,
    spikes: down.spikes + up.spikes,
  };
}

function less(a: Float64Array, b: Float64Array): Float64Array {
  const difference = new Float64Array(a.length);
  for (let k = 0; k < a.length; k++) difference[k] = a[k]! - b[k]!;
  return difference;
}

function times(a: Float64Array, b: Float64Array): Float64Array {
  const product = new Float64Array(a.length);
  for (let k = 0; k < a.length; k++) product[k] = a[k]! * b[k]!;
  return product;
}

/** The layers of one leg whose water was found on the other: `count` values in each column. */
interface Matches {
  readonly pressure: Float64Array;
  readonly pressureOther: Float64Array;
  readonly theta: Float64Array;
  readonly salinity: Float64Array;
  readonly salinityOther: Float64Array;
  readonly spread: Float64Array;
  readonly ppmPerSalinity: Float64Array;
  readonly count: number;
  /** Matches at equal pressure. */
  readonly atPressure: number;
}

function matchOneWay(layers: Layers, other: Layers, search: Search): Matches {
  const elsewhere = other.pressure_dbar;
  const column = () => new Float64Array(layers.count.length);
  const [pressure, theta, salinity] = [column(), column(), column()];
  const [pressureOther, salinityOther] = [column(), column()];
  const [spread, perSalinity] = [column(), column()];
  let from = 0;
  let count = 0;
  let atPressure = 0;
  for (let i = 0; i < layers.count.length; i++) {
    const p = layers.pressure_dbar[i]!;
    while (from < elsewhere.length && elsewhere[from]! < p - search.window_dbar) from++;
    const wanted = layers.potentialTemperature_C[i]!;
    const found = findWater(other, from, p, wanted, search);
    perSalinity[count] = ppmPerSalinity(
      layers.conductivity_mS_cm[i]!,
      layers.temperature_C[i]!,
      layers.pressure_dbar[i]!,
    );
    if (found === undefined || !Number.isFinite(perSalinity[count]!)) continue;
    pressure[count] = p;
    pressureOther[count] = found.pressure;
    theta[count] = wanted;
    salinity[count] = layers.salinity[i]!;
    salinityOther[count] = found.salinity;
    spread[count] = found.spread;
    if (found.atPressure) atPressure++;
    count++;
  }
  return {
    pressure,
    pressureOther,
    theta,
    salinity,
    salinityOther,
    spread,
    ppmPerSalinity: perSalinity,
    count,
    atPressure,
  };
}

/** Indices in the first matches and, after these, in the second, by the mean pressure of the legs. */
function orderOf(first: Matches, second: Matches): Uint32Array {
  const both = new Float64Array(first.count + second.count);
  for (let i = 0; i < first.count; i++) both[i] = first.pressure[i]! + first.pressureOther[i]!;
  for (let i = 0; i < second.count; i++) {
    both[first.count + i] = second.pressure[i]! + second.pressureOther[i]!;
  }
  return Uint32Array.from(both.keys()).sort((a, b) => both[a]! - both[b]!);
}
