// Averages of one leg in layers of pressure, spikes apart.
import { pt0FromTColumn, spFromCColumn, srFromSpColumn } from "../seawater/index.js";
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
/** The layer of a scan without readings; no pressure lies so deep. */
const absent = 2 ** 31 - 1;
/** dC/dt at constant salinity, mS/cm per K: between 0.8 and 1.15 in sea water [UNESCO1983]. */
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
  const columns = cast.columns[cell];
  const temperature = columns?.temperature_C ?? new Float64Array(pressure.length).fill(Number.NaN);
  const conductivity = columns?.conductivity_mS_cm ?? temperature;
  const readings = { pressure, temperature, conductivity };
  const { order, starts } = sortIntoLayers(readings, scans, thickness_dbar);
  const n = starts.length - 1;
  const layers = {
    pressure_dbar: new Float64Array(n),
    temperature_C: new Float64Array(n),
    conductivity_mS_cm: new Float64Array(n),
    count: new Uint32Array(n),
    firstScan: new Uint32Array(n),
  };
  let spikes = 0;
  for (let k = 0; k < n; k++) {
    const own = order.subarray(starts[k]!, starts[k + 1]!);
    const all = moments(readings, own);
    const keep = own.length < leastToJudge || !all.suspicious ? own : withoutSpikes(readings, own);
    const kept = keep === own ? all : moments(readings, keep);
    spikes += own.length - keep.length;
    layers.pressure_dbar[k] = kept.pressure;
    layers.temperature_C[k] = kept.temperature;
    layers.conductivity_mS_cm[k] = kept.conductivity;
    layers.count[k] = keep.length;
    layers.firstScan[k] = own[0]!;
  }
  const { pressure_dbar, temperature_C, conductivity_mS_cm } = layers;
  const salinity = spFromCColumn(conductivity_mS_cm, temperature_C, pressure_dbar);
  const referenceSalinity = srFromSpColumn(salinity);
  const potentialTemperature_C = pt0FromTColumn(referenceSalinity, temperature_C, pressure_dbar);
  return { ...layers, salinity, potentialTemperature_C, spikes };
}

/** Columns of one cell, one value a scan. */
interface Readings {
  readonly pressure: Float64Array;
  readonly temperature: Float64Array;
  readonly conductivity: Float64Array;
}

/**
 * The scans that have all readings, by layer, within a layer in order of time; `starts` has one more entry than
 * there are layers.
 */
function sortIntoLayers(
  { pressure, temperature, conductivity }: Readings,
  scans: Uint32Array,
  thickness: number,
) {
  const layers = new Int32Array(scans.length);
  let first = absent;
  let last = -absent;
  for (let k = 0; k < scans.length; k++) {
    const i = scans[k]!;
    const read = Number.isFinite(pressure[i]! + temperature[i]! + conductivity[i]!);
    const layer = read ? Math.floor(pressure[i]! / thickness) : absent;
    layers[k] = layer;
    if (layer < first) first = layer;
    if (read && layer > last) last = layer;
  }
  if (first === absent) return { order: new Uint32Array(0), starts: Uint32Array.of(0) };
  const ends = new Uint32Array(last - first + 1);
  for (let k = 0; k < layers.length; k++) if (layers[k] !== absent) ends[layers[k]! - first]!++;
  const starts: number[] = [0];
  let sum = 0;
  for (let k = 0; k < ends.length; k++) {
    const own = ends[k]!;
    ends[k] = sum;
    sum += own;
    if (own > 0) starts.push(sum);
  }
  const order = new Uint32Array(sum);
  for (let k = 0; k < scans.length; k++) {
    if (layers[k] !== absent) order[ends[layers[k]! - first]!++] = scans[k]!;
  }
  return { order, starts: Uint32Array.from(starts) };
}

/** Follows salinity closely enough to show a spike of either sensor. */
function saltLike({ temperature, conductivity }: Readings, scan: number): number {
  return conductivity[scan]! - conductivityPerKelvin * temperature[scan]!;
}

/** Means of the scans, and whether one of them lies far out. */
function moments(readings: Readings, scans: Uint32Array) {
  const { pressure, temperature, conductivity } = readings;
  const origin = saltLike(readings, scans[0]!);
  let [p, t, c, sum, squares, least, most] = [0, 0, 0, 0, 0, 0, 0];
  for (let k = 0; k < scans.length; k++) {
    const i = scans[k]!;
    p += pressure[i]!;
    t += temperature[i]!;
    c += conductivity[i]!;
    const away = saltLike(readings, i) - origin;
    sum += away;
    squares += away * away;
    if (away < least) least = away;
    if (away > most) most = away;
  }
  const n = scans.length;
  const mean = sum / n;
  const variance = squares / n - mean * mean;
  const furthest = Math.max(most - mean, mean - least);
  return {
    pressure: p / n,
    temperature: t / n,
    conductivity: c / n,
    suspicious: furthest * furthest > suspicious * suspicious * variance,
  };
}

function withoutSpikes(readings: Readings, scans: Uint32Array): Uint32Array {
  const values = new Float64Array(scans.length);
  for (let k = 0; k < scans.length; k++) values[k] = saltLike(readings, scans[k]!);
  const centre = median(values);
  const allowed = spike * madScale(values, centre);
  const kept = scans.filter((_, k) => Math.abs(values[k]! - centre) <= allowed);
  return kept.length > 0 && kept.length < scans.length ? kept : scans;
}
