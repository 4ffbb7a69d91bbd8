// Averages of one leg in layers of pressure, without spikes.
import { pt0FromTColumn, spFromCColumn, srFromSpColumn } from "../seawater/index.js";
import { madScale } from "../statistics/madScale.js";
import { median } from "../statistics/robustCentre.js";
import type { Cast, CellName } from "./cast.js";
import { isRead, type Reach, type Readings, reachOf, saltLike, sumByLayer } from "./sumByLayer.js";

/** Layers with at least one scan, shallowest first; one value for each layer in every column. */
export interface Layers {
  /** Mean pressure of the scans, dbar. */
  readonly pressure_dbar: Float64Array;
  readonly temperature_C: Float64Array;
  readonly conductivity_mS_cm: Float64Array;
  /** Salinity of the averages, PSS-78. */
  readonly salinity: Float64Array;
  /** Referred to 0 dbar, degree C, at reference salinity. */
  readonly potentialTemperature_C: Float64Array;
  /** Number of scans averaged. */
  readonly count: Uint32Array;
  /** Number of scans excluded as spikes, in all layers together. */
  readonly spikes: number;
  /** The first scan of the layer in time. */
  readonly firstScan: Uint32Array;
}

/**
 * A layer with a scan this many standard deviations from the mean is examined again by median and MAD. By chance one layer
 * in four of this many scans has such a scan. Many spikes in few scans hide in the standard deviation of their own layer, so
 * it counts at most as this many times that of the layer below (judgement): the sea is roughest near the surface.
 */
const suspicious = { few: 3, many: 3.5, from: 48, timesBelow: 2 };
/** Scans this many robust standard deviations from the median are spikes. */
const spike = 4;
const leastToJudge = 5;
/** Least standard deviation of scans in a layer, mS/cm: readings are rounded (judgement). */
const leastDeviation = 0.0005;

/**
 * @param scans        indices of the scans of one leg, as from `splitLegs`
 * @param thickness_dbar of the layers, the first beginning at 0 dbar
 * @param reach        pressure range of the scans, if known
 * Scans without pressure, temperature or conductivity of this cell are skipped.
 */
export function averageByPressure(
  cast: Cast,
  scans: Uint32Array,
  cell: CellName,
  thickness_dbar: number,
  reach: Reach = reachOf(cast.columns.pressure_dbar, scans),
): Layers {
  const columns = cast.columns[cell];
  if (columns === undefined) {
    return averageByPressure(cast, new Uint32Array(0), "primary", thickness_dbar);
  }
  const pressure = cast.columns.pressure_dbar;
  const { temperature_C: temperature, conductivity_mS_cm: conductivity } = columns;
  const readings = { pressure, temperature, conductivity };
  const sums = sumByLayer(readings, scans, thickness_dbar, reach);
  const present = sums.count.reduce((layers, count) => layers + (count > 0 ? 1 : 0), 0);
  const layers = {
    pressure_dbar: new Float64Array(present),
    temperature_C: new Float64Array(present),
    conductivity_mS_cm: new Float64Array(present),
    count: new Uint32Array(present),
    firstScan: new Uint32Array(present),
  };
  let spikes = 0;
  let k = present;
  let below = Number.POSITIVE_INFINITY;
  for (let layer = sums.count.length - 1; layer >= 0; layer--) {
    let count = sums.count[layer]!;
    if (count === 0) continue;
    k--;
    let [p, t, c] = [sums.pressure[layer]!, sums.temperature[layer]!, sums.conductivity[layer]!];
    const mean = sums.away[layer]! / count;
    let deviation = Math.sqrt(Math.max(0, sums.awaySquared[layer]! / count - mean * mean));
    const furthest = Math.max(sums.most[layer]! - mean, mean - sums.least[layer]!);
    const far = count < suspicious.from ? suspicious.few : suspicious.many;
    const usual = Math.min(deviation, suspicious.timesBelow * below);
    if (count >= leastToJudge && furthest > far * usual) {
      const passage = scans.subarray(sums.first[layer], sums.last[layer]! + 1);
      const found = spikesAmong(readings, passage, thickness_dbar);
      deviation = found.deviation;
      for (const scan of found.spikes) {
        p -= pressure[scan]!;
        t -= temperature[scan]!;
        c -= conductivity[scan]!;
        count--;
        spikes++;
      }
    }
    layers.pressure_dbar[k] = p / count;
    layers.temperature_C[k] = t / count;
    layers.conductivity_mS_cm[k] = c / count;
    layers.count[k] = count;
    layers.firstScan[k] = scans[sums.first[layer]!]!;
    if (count >= leastToJudge) below = Math.max(deviation, leastDeviation);
  }
  return { ...withSalinity(layers), spikes };
}

/** Salinity and potential temperature of averages. */
export function withSalinity<
  Averages extends Pick<Layers, "pressure_dbar" | "temperature_C" | "conductivity_mS_cm">,
>(averages: Averages): Averages & Pick<Layers, "salinity" | "potentialTemperature_C"> {
  const { pressure_dbar, temperature_C, conductivity_mS_cm } = averages;
  const salinity = spFromCColumn(conductivity_mS_cm, temperature_C, pressure_dbar);
  const referenceSalinity = srFromSpColumn(salinity);
  const potentialTemperature_C = pt0FromTColumn(referenceSalinity, temperature_C, pressure_dbar);
  return { ...averages, salinity, potentialTemperature_C };
}

/**
 * The scans far from the median, none if that would exclude all; and the standard deviation of the others.
 * @param passage from the first scan of a layer to its last: if pressure varies, it contains scans of its neighbours too
 */
function spikesAmong(
  readings: Readings,
  passage: Uint32Array,
  thickness_dbar: number,
): { readonly spikes: readonly number[]; readonly deviation: number } {
  const { pressure } = readings;
  const layer = Math.floor(pressure[passage[0]!]! / thickness_dbar);
  // NaN for scans outside the layer.
  const values = new Float64Array(passage.length).fill(Number.NaN);
  let own = 0;
  for (let k = 0; k < passage.length; k++) {
    const scan = passage[k]!;
    if (Math.floor(pressure[scan]! / thickness_dbar) !== layer || !isRead(readings, scan)) continue;
    values[k] = saltLike(readings, scan);
    own++;
  }
  const centre = median(values);
  const deviation = Math.max(madScale(values, centre), leastDeviation);
  const out: number[] = [];
  for (let k = 0; k < passage.length; k++) {
    if (Math.abs(values[k]! - centre) > spike * deviation) out.push(passage[k]!);
  }
  return { spikes: out.length < own ? out : [], deviation };
}
