// The time of each scan, and the usual speed of the package: from the time column, or from the sample rate. If neither is
// known, from the pressure and a usual speed of about one metre a second.
import type { Cast } from "./cast.js";
import type { PressureSpan } from "./pressureSpan.js";

export interface ScanClock {
  /** Seconds, never falling; a missing time is that of the scan before. */
  readonly seconds: Float64Array;
  /** Usual rate of lowering or hoisting, without stops, dbar/s. */
  readonly rate_dbar_s: number;
  readonly from: "time" | "sample-rate" | "pressure";
}

/** Assumed rate of lowering without times, dbar/s (common practice, no source). */
const usualRate_dbar_s = 1;
/** Times that imply a faster or slower package are not used, dbar/s. */
const plausibleRate = { least: 0.01, most: 5 };

/**
 * The clock of all scans of a cast.
 * @param pressure dbar, of the scans in the water
 * @param span     the least and greatest of it
 * @param scans    their positions in the cast, in order of time
 */
export function scanClock(
  pressure: Float64Array,
  span: PressureSpan,
  scans: Uint32Array,
  { columns, sampleRate_Hz }: Cast,
): ScanClock {
  const { from, to, dbar } = quickestCrossing(pressure, span);
  const crossing = { from: scans[from]!, to: scans[to]!, dbar };
  const seconds = columns.time_s === undefined ? undefined : risingTime(columns.time_s);
  if (seconds !== undefined) {
    const rate = crossing.dbar / (seconds[crossing.to]! - seconds[crossing.from]!);
    if (plausible(rate)) return { seconds, rate_dbar_s: rate, from: "time" };
  }
  const count = columns.pressure_dbar.length;
  const perScan = crossing.dbar / (crossing.to - crossing.from);
  if (sampleRate_Hz !== undefined && plausible(perScan * sampleRate_Hz)) {
    return {
      seconds: evenTimes(count, 1 / sampleRate_Hz),
      rate_dbar_s: perScan * sampleRate_Hz,
      from: "sample-rate",
    };
  }
  const interval = perScan > 0 ? perScan / usualRate_dbar_s : 1;
  return {
    seconds: evenTimes(count, interval),
    rate_dbar_s: usualRate_dbar_s,
    from: "pressure",
  };
}

function evenTimes(n: number, interval: number): Float64Array {
  const seconds = new Float64Array(n);
  for (let i = 0; i < n; i++) seconds[i] = i * interval;
  return seconds;
}

function plausible(rate: number): boolean {
  return rate > plausibleRate.least && rate < plausibleRate.most;
}

/** The column itself, or a copy with gaps filled from the scan before; undefined if it runs backwards or is empty. */
function risingTime(time_s: Float64Array): Float64Array | undefined {
  const first = time_s.findIndex((t) => Number.isFinite(t));
  if (first < 0) return undefined;
  let last = time_s[first]!;
  let gaps = 0;
  for (let i = 0; i < time_s.length; i++) {
    const t = time_s[i]!;
    if (t < last) return undefined;
    if (Number.isFinite(t)) last = t;
    else gaps++;
  }
  return gaps === 0 ? time_s : filledFrom(time_s[first]!, time_s);
}

function filledFrom(first: number, time_s: Float64Array): Float64Array {
  let last = first;
  return time_s.map((t) => {
    if (Number.isFinite(t)) last = t;
    return last;
  });
}

/** The quicker of the two passages through the middle half of the pressure range, as positions. */
function quickestCrossing(pressure: Float64Array, { shallowest, deepest }: PressureSpan) {
  const shallow = shallowest + (deepest - shallowest) / 4;
  const deep = deepest - (deepest - shallowest) / 4;
  let best = { from: 0, to: Math.max(1, pressure.length - 1), dbar: 0 };
  let lastShallow = -1;
  let lastDeep = -1;
  for (let i = 0; i < pressure.length; i++) {
    const p = pressure[i]!;
    if (p > shallow && p < deep) continue;
    const cameFrom = p >= deep ? lastShallow : p <= shallow ? lastDeep : -1;
    if (cameFrom >= 0 && (best.dbar === 0 || i - cameFrom < best.to - best.from)) {
      best = { from: cameFrom, to: i, dbar: Math.abs(p - pressure[cameFrom]!) };
    }
    if (p >= deep) {
      lastDeep = i;
      lastShallow = -1;
    } else {
      lastShallow = i;
      lastDeep = -1;
    }
  }
  return best;
}
