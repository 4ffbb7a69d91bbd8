// The place on a leg of water with a given potential temperature.
import type { Layers } from "../../cast/averageByPressure.js";

interface FoundWater {
  readonly pressure: number;
  readonly salinity: number;
  /** Range of salinity among the places with this temperature. */
  readonly spread: number;
  /** Taken at equal pressure, because temperature is uniform. */
  readonly atPressure: boolean;
}

/** A window with a smaller range of temperature is uniform, K (judgement: four times a stability of 1 mK over a cast). */
const uniform_K = 0.004;

export interface Search {
  /** Half-width of the window, dbar. */
  readonly window_dbar: number;
  /** Layers further apart than this are not joined, dbar. */
  readonly gap_dbar: number;
}

/**
 * @param leg   to search
 * @param from  the first layer within the window
 * @param p     centre of the search, dbar
 * @param theta required potential temperature, degree C
 * @returns the mean over all places in the window with that temperature; the level p itself if temperature is uniform;
 *   undefined if that temperature does not occur
 */
export function findWater(
  leg: Layers,
  from: number,
  p: number,
  theta: number,
  { window_dbar, gap_dbar }: Search,
): FoundWater | undefined {
  const { pressure_dbar, potentialTemperature_C, salinity } = leg;
  let coldest = Number.POSITIVE_INFINITY;
  let warmest = Number.NEGATIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  let level = -1;
  let pressures = 0;
  let salinities = 0;
  let count = 0;
  for (let j = from; j < pressure_dbar.length && pressure_dbar[j]! <= p + window_dbar; j++) {
    const here = potentialTemperature_C[j]!;
    coldest = Math.min(coldest, here);
    warmest = Math.max(warmest, here);
    if (j + 1 >= pressure_dbar.length) break;
    if (pressure_dbar[j + 1]! - pressure_dbar[j]! > gap_dbar) continue;
    if (pressure_dbar[j]! <= p && p <= pressure_dbar[j + 1]!) level = j;
    const next = potentialTemperature_C[j + 1]!;
    if (next === here || (here - theta) * (next - theta) > 0) continue;
    const part = (theta - here) / (next - here);
    const found = between(salinity, j, part);
    pressures += between(pressure_dbar, j, part);
    salinities += found;
    least = Math.min(least, found);
    most = Math.max(most, found);
    count++;
  }
  if (warmest - coldest < uniform_K) {
    if (level < 0) return undefined;
    const part = (p - pressure_dbar[level]!) / (pressure_dbar[level + 1]! - pressure_dbar[level]!);
    return {
      pressure: p,
      salinity: between(salinity, level, part),
      spread: 0,
      atPressure: true,
    };
  }
  if (count === 0) return undefined;
  return {
    pressure: pressures / count,
    salinity: salinities / count,
    spread: most - least,
    atPressure: false,
  };
}

function between(column: Float64Array, j: number, part: number): number {
  return column[j]! + part * (column[j + 1]! - column[j]!);
}
