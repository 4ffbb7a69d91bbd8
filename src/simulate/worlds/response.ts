// Response of sensors: delay, first-order lag, thermal lag of the cell's wall.

/**
 * First-order lag, exact for input that is linear between scans.
 * @param timeConstant_s by scan
 */
export function firstOrder(
  values: Float64Array,
  timeConstant_s: (scan: number) => number,
  rate_Hz: number,
): Float64Array {
  const out = new Float64Array(values.length);
  const step = 1 / rate_Hz;
  let lastTau = Number.NaN;
  let decay = 0;
  out[0] = values[0]!;
  for (let i = 1; i < values.length; i++) {
    const tau = timeConstant_s(i);
    if (tau !== lastTau) {
      decay = Math.exp(-step / tau);
      lastTau = tau;
    }
    const behind = tau * (values[i]! - values[i - 1]!) * rate_Hz;
    out[i] = values[i]! - behind + (out[i - 1]! - values[i - 1]! + behind) * decay;
  }
  return out;
}

/** The value `seconds` earlier, interpolated linearly. */
export function delayed(values: Float64Array, seconds: number, rate_Hz: number): Float64Array {
  const shift = seconds * rate_Hz;
  const whole = Math.floor(shift);
  const part = shift - whole;
  return values.map((_, i) => {
    const later = values[Math.max(0, i - whole)]!;
    return later + part * (values[Math.max(0, i - whole - 1)]! - later);
  });
}

/** Thermal lag of a cell's wall. */
export interface WallHeat {
  readonly amplitude: number;
  readonly timeConstant_s: number;
}

/**
 * Water outside the cell minus water inside it, K: the two-parameter recursion of [MorisonEtAl1994].
 * At a constant rate of change it tends to amplitude x time constant x rate.
 */
export function wallLag(
  temperature: Float64Array,
  { amplitude, timeConstant_s }: WallHeat,
  rate_Hz: number,
): Float64Array {
  const out = new Float64Array(temperature.length);
  const span = 2 * rate_Hz * timeConstant_s;
  const a = (2 * rate_Hz * amplitude * timeConstant_s) / (1 + span);
  const b = 1 - (2 * a) / amplitude;
  for (let i = 1; i < out.length; i++) {
    out[i] = -b * out[i - 1]! + a * (temperature[i]! - temperature[i - 1]!);
  }
  return out;
}
