// Sums over the scans of each pressure layer, in one pass. A leg has a hundred thousand scans; all later steps use some thousand
// layers.
import { isPlausible, plausibleLimits } from "./plausibleReading.js";

/** Columns of one cell, one value a scan of the cast. */
export interface Readings {
  readonly pressure: Float64Array;
  readonly temperature: Float64Array;
  readonly conductivity: Float64Array;
}

/** One value for each layer, shallowest first; layers without a scan have a count of 0. */
interface LayerSums {
  readonly count: Uint32Array;
  readonly pressure: Float64Array;
  readonly temperature: Float64Array;
  readonly conductivity: Float64Array;
  /** `saltLike` minus that of the layer's first scan: sums, least and most. */
  readonly away: Float64Array;
  readonly awaySquared: Float64Array;
  readonly least: Float64Array;
  readonly most: Float64Array;
  /** Positions among the scans of the first and the last in the layer. */
  readonly first: Uint32Array;
  readonly last: Uint32Array;
}

/** dC/dt at constant salinity, mS/cm per K: between 0.8 and 1.15 in sea water [UNESCO1983]. */
const conductivityPerKelvin = 1;

/** Close enough to salinity to show a spike of either sensor. */
export function saltLike({ temperature, conductivity }: Readings, scan: number): number {
  return conductivity[scan]! - conductivityPerKelvin * temperature[scan]!;
}

/** Whether all three readings are present and possible in water. */
export function isRead({ pressure, temperature, conductivity }: Readings, scan: number): boolean {
  const { pressure_dbar, temperature_C, conductivity_mS_cm } = plausibleLimits;
  return (
    isPlausible(pressure[scan]!, pressure_dbar) &&
    isPlausible(temperature[scan]!, temperature_C) &&
    isPlausible(conductivity[scan]!, conductivity_mS_cm)
  );
}

/**
 * @param thickness of the layers, the first beginning at 0 dbar. Scans without a reading are skipped.
 * @param reach     pressure range of the scans
 */
export function sumByLayer(
  readings: Readings,
  scans: Uint32Array,
  thickness: number,
  reach: Reach,
): LayerSums {
  const { pressure, temperature, conductivity } = readings;
  const { top, layers } = spanned(reach, thickness);
  const sums = noSums(layers);
  for (let k = 0; k < scans.length; ) {
    const p0 = pressure[scans[k]!]!;
    const i = Math.floor(p0 / thickness) - top;
    if (!isRead(readings, scans[k]!)) {
      k++;
      continue;
    }
    if (sums.count[i] === 0) sums.first[i] = k;
    const origin = saltLike(readings, scans[sums.first[i]!]!);
    const shallow = thickness * (top + i);
    const deep = thickness * (top + i + 1);
    // A leg passes its layers one after the other, so the sums of one passage are stored when it ends.
    let count = 0;
    let p = 0;
    let t = 0;
    let c = 0;
    let sum = 0;
    let squares = 0;
    let least = 0;
    let most = 0;
    let here = p0;
    do {
      const scan = scans[k]!;
      if (isRead(readings, scan)) {
        const away = saltLike(readings, scan) - origin;
        count++;
        p += here;
        t += temperature[scan]!;
        c += conductivity[scan]!;
        sum += away;
        squares += away * away;
        if (away < least) least = away;
        if (away > most) most = away;
      }
      k++;
      here = k < scans.length ? pressure[scans[k]!]! : Number.NaN;
    } while (here >= shallow && here < deep);
    sums.count[i]! += count;
    sums.pressure[i]! += p;
    sums.temperature[i]! += t;
    sums.conductivity[i]! += c;
    sums.away[i]! += sum;
    sums.awaySquared[i]! += squares;
    if (least < sums.least[i]!) sums.least[i] = least;
    if (most > sums.most[i]!) sums.most[i] = most;
    sums.last[i] = k - 1;
  }
  return sums;
}

function noSums(layers: number): LayerSums {
  const column = () => new Float64Array(layers);
  return {
    count: new Uint32Array(layers),
    pressure: column(),
    temperature: column(),
    conductivity: column(),
    away: column(),
    awaySquared: column(),
    least: column(),
    most: column(),
    first: new Uint32Array(layers),
    last: new Uint32Array(layers),
  };
}

/** Least and greatest pressure of scans, dbar. */
export interface Reach {
  readonly shallowest: number;
  readonly deepest: number;
}

/** Infinity to -Infinity without scans or without pressure. */
export function reachOf(pressure: Float64Array, scans: Uint32Array): Reach {
  let shallowest = Number.POSITIVE_INFINITY;
  let deepest = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < scans.length; k++) {
    const p = pressure[scans[k]!]!;
    if (p < shallowest && p > Number.NEGATIVE_INFINITY) shallowest = p;
    if (p > deepest && p < Number.POSITIVE_INFINITY) deepest = p;
  }
  return { shallowest, deepest };
}

/** The shallowest layer, and the number of layers down to the deepest. */
function spanned({ shallowest, deepest }: Reach, thickness: number) {
  const top = Math.floor(shallowest / thickness);
  return { top, layers: deepest >= shallowest ? Math.floor(deepest / thickness) - top + 1 : 0 };
}
