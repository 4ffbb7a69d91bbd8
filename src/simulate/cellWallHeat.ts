// The wall of a cell stores heat. The water in the cell is warmer than outside if the package comes from warm water, and
// cooler if it comes from cold water. First-order response of amplitude alpha and time constant tau [LueckPicklo1990],
// [MorisonEtAl1994].

export interface ThermalLag {
  /** Amplitude, no unit. */
  readonly alpha: number;
  /** Time constant, s. */
  readonly tau_s: number;
}

/** A cell with water pumped through it at the usual rate [MorisonEtAl1994]. */
export const usualLag: ThermalLag = { alpha: 0.0245, tau_s: 9.5 };
/** The flow through the cell for these values, m/s [MorisonEtAl1994]. */
const usualFlow_m_s = 1.75;

/** The lag at a share of the usual flow, by the dependence on flow of [MorisonEtAl1994]. */
export function lagAtFlow(flow: number): ThermalLag {
  const v = usualFlow_m_s * flow;
  return { alpha: 0.0264 / v + 0.0135, tau_s: 2.7858 / Math.sqrt(v) + 7.1499 };
}

/**
 * Temperature outside the cell minus that of the water in it, K, scan by scan: the recursive filter, from the bilinear rule
 * [MorisonEtAl1994]. A steady change g in K/s tends to alpha tau g; a step dT gives alpha dT, which decays as exp(-t /
 * tau).
 * @param temperature degree C, evenly spaced in time
 */
export function thermalLagOfScans(
  temperature: Float64Array,
  interval_s: number,
  { alpha, tau_s }: ThermalLag,
): Float64Array {
  const a = ((2 / interval_s) * alpha * tau_s) / (1 + (2 / interval_s) * tau_s);
  const b = (1 - (2 / interval_s) * tau_s) / (1 + (2 / interval_s) * tau_s);
  const lag = new Float64Array(temperature.length);
  for (let n = 1; n < lag.length; n++) {
    lag[n] = -b * lag[n - 1]! + a * (temperature[n]! - temperature[n - 1]!);
  }
  return lag;
}

/**
 * The same for successive layers, some tau apart. It is exact for a linear change of temperature from one to the next, so
 * that the result does not depend on the thickness of the layers.
 * @param interval_s seconds since the layer before, one for each layer; the first is not used
 */
export function thermalLagOfLayers(
  temperature: Float64Array,
  interval_s: Float64Array,
  { alpha, tau_s }: ThermalLag,
): Float64Array {
  const lag = new Float64Array(temperature.length);
  for (let n = 1; n < lag.length; n++) {
    const elapsed = interval_s[n]!;
    const kept = Math.exp(-elapsed / tau_s);
    const change = temperature[n]! - temperature[n - 1]!;
    lag[n] = kept * lag[n - 1]! + (alpha * change * (1 - kept) * tau_s) / elapsed;
  }
  return lag;
}
