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
 * in four of this many scans has such a scan.
 */
const suspicious = { few: 3, many: 3.5, from: 48 };
/** Scans this many robust standard deviations from the median are spikes. */
const spike = 4;
const leastToJudge = 5;

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
  let k = 0;
  for (let layer = 0; layer < sums.count.length; layer++) {
    let count = sums.count[layer]!;
    if (count === 0) continue;
    let [p, t, c] = [sums.pressure[layer]!, sums.temperature[layer]!, sums.conductivity[layer]!];
    const mean = sums.away[layer]! / count;
    const variance = sums.awaySquared[layer]! / count - mean * mean;
    const furthest = Math.max(sums.most[layer]! - mean, mean - sums.least[layer]!);
    const far = count < suspicious.from ? suspicious.few : suspicious.many;
    if (count >= leastToJudge && furthest * furthest > far * far * variance) {
      const passage = scans.subarray(sums.first[layer], sums.last[layer]! + 1);
      for (const scan of spikesAmong(readings, passage, thickness_dbar)) {
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
    k++;
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
 * The values far from the median; none if that would exclude all.
 * @param passage from the first scan of a layer to its last: if pressure varies, it contains scans of its neighbours too
 */
function spikesAmong(
  readings: Readings,
  passage: Uint32Array,
  thickness_dbar: number,
): readonly number[] {
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
  const allowed = spike * madScale(values, centre);
  const out: number[] = [];
  for (let k = 0; k < passage.length; k++) {
    if (Math.abs(values[k]! - centre) > allowed) out.push(passage[k]!);
  }
  return out.length < own ? out : [];
}
