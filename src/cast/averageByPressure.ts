// Averages of one leg in layers of pressure, spikes apart.
import { pt0FromT, spFromC, srFromSp } from "../seawater/index.js";
import { madScale } from "../statistics/madScale.js";
import { median } from "../statistics/robustCentre.js";
import type { Cast, CellName } from "./cast.js";

/** Layers that hold at least one scan, shallowest first; one value a layer in every column. */
export interface Layers {
  /** Mean of the scans', dbar. */
  readonly pressure_dbar: Float64Array;
  readonly temperature_C: Float64Array;
  readonly conductivity_mS_cm: Float64Array;
  /** Of the averages, PSS-78. */
  readonly salinity: Float64Array;
  /** Referred to 0 dbar, degree C, at reference salinity. */
  readonly potentialTemperature_C: Float64Array;
  /** Scans averaged. */
  readonly count: Uint32Array;
  /** Scans left out as spikes, in all layers together. */
  readonly spikes: number;
  /** The scan of the layer that was taken first. */
  readonly firstScan: Uint32Array;
}

/** A layer in which a scan lies this many standard deviations out is looked at again, by median and MAD. */
const suspicious = 3;
/** Scans this many robust standard deviations out are spikes. */
const spike = 4;
const leastToJudge = 5;
/**
 * dC/dt at constant salinity, mS/cm per K: between 0.8 and 1.15 in sea water [UNESCO1983]. C less this times
 * t follows salinity closely enough to show a spike of either sensor.
 */
const conductivityPerKelvin = 1;

/**
 * @param scans        indices of the scans of one leg, as from `splitLegs`
 * @param thickness_dbar of the layers, the first beginning at 0 dbar
 * Scans without pressure, temperature or conductivity of this cell are passed over.
 */
export function averageByPressure(
  cast: Cast,
  scans: Uint32Array,
  cell: CellName,
  thickness_dbar: number,
): Layers {
  const pressure = cast.columns.pressure_dbar;
  const readings = cast.columns[cell];
  const temperature = readings?.temperature_C ?? new Float64Array(pressure.length).fill(Number.NaN);
  const conductivity = readings?.conductivity_mS_cm ?? temperature;
  const present = new Uint32Array(scans.length);
  let found = 0;
  for (let k = 0; k < scans.length; k++) {
    const i = scans[k]!;
    if (Number.isFinite(pressure[i]! + temperature[i]! + conductivity[i]!)) present[found++] = i;
  }
  const { order, starts } = sortIntoLayers(pressure, present.subarray(0, found), thickness_dbar);
  const n = starts.length - 1;
  const layers = {
    pressure_dbar: new Float64Array(n),
    temperature_C: new Float64Array(n),
    conductivity_mS_cm: new Float64Array(n),
    salinity: new Float64Array(n),
    potentialTemperature_C: new Float64Array(n),
    count: new Uint32Array(n),
    firstScan: new Uint32Array(n),
  };
  let spikes = 0;
  for (let k = 0; k < n; k++) {
    const own = order.subarray(starts[k]!, starts[k + 1]!);
    const keep = withoutSpikes(own, temperature, conductivity);
    spikes += own.length - keep.length;
    const p = meanOf(pressure, keep);
    const t = meanOf(temperature, keep);
    const c = meanOf(conductivity, keep);
    const salinity = spFromC(c, t, p);
    layers.pressure_dbar[k] = p;
    layers.temperature_C[k] = t;
    layers.conductivity_mS_cm[k] = c;
    layers.salinity[k] = salinity;
    layers.potentialTemperature_C[k] = pt0FromT(srFromSp(salinity), t, p);
    layers.count[k] = keep.length;
    layers.firstScan[k] = own[0]!;
  }
  return { ...layers, spikes };
}

/** Scans by layer, within a layer in order of time; `starts` has one more entry than there are layers. */
function sortIntoLayers(pressure: Float64Array, scans: Uint32Array, thickness: number) {
  if (scans.length === 0) return { order: scans, starts: Uint32Array.of(0) };
  const layers = new Int32Array(scans.length);
  let first = Number.POSITIVE_INFINITY;
  let last = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < scans.length; k++) {
    const layer = Math.floor(pressure[scans[k]!]! / thickness);
    layers[k] = layer;
    if (layer < first) first = layer;
    if (layer > last) last = layer;
  }
  const ends = new Uint32Array(last - first + 1);
  for (let k = 0; k < layers.length; k++) ends[layers[k]! - first]!++;
  const starts: number[] = [0];
  for (let k = 0, sum = 0; k < ends.length; k++) {
    const own = ends[k]!;
    ends[k] = sum;
    sum += own;
    if (own > 0) starts.push(sum);
  }
  const order = new Uint32Array(scans.length);
  for (let k = 0; k < scans.length; k++) order[ends[layers[k]! - first]!++] = scans[k]!;
  return { order, starts: Uint32Array.from(starts) };
}

function meanOf(column: Float64Array, scans: Uint32Array): number {
  let sum = 0;
  for (let k = 0; k < scans.length; k++) sum += column[scans[k]!]!;
  return sum / scans.length;
}

function withoutSpikes(
  scans: Uint32Array,
  temperature: Float64Array,
  conductivity: Float64Array,
): Uint32Array {
  if (scans.length < leastToJudge) return scans;
  const saltLike = (i: number) => conductivity[i]! - conductivityPerKelvin * temperature[i]!;
  let sum = 0;
  for (let k = 0; k < scans.length; k++) sum += saltLike(scans[k]!);
  const mean = sum / scans.length;
  let squares = 0;
  let furthest = 0;
  for (let k = 0; k < scans.length; k++) {
    const away = Math.abs(saltLike(scans[k]!) - mean);
    squares += away * away;
    if (away > furthest) furthest = away;
  }
  if (furthest <= suspicious * Math.sqrt(squares / scans.length)) return scans;
  const values = Array.from(scans, saltLike);
  const centre = median(values);
  const allowed = spike * madScale(values, centre);
  const kept = scans.filter((i) => Math.abs(saltLike(i) - centre) <= allowed);
  return kept.length > 0 ? kept : scans;
}
