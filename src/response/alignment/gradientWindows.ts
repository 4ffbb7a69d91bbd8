// The windows of a leg with the most uneven changes of temperature. A steady change gives no information, because a delay
// then shifts salinity by a constant.

interface WindowRule {
  /** Scans in a window, even. Windows overlap by half. */
  readonly length: number;
  /** Largest number of windows. */
  readonly most: number;
  /** Second differences of temperature are taken over this many scans. */
  readonly bend: number;
}

/** Least share of the scans of a window that are on its leg: heave takes scans off the leg (judgement). */
const leastShare = 0.5;
/** Every fourth scan is enough to find changes of the gradient (speed). */
const stride = 4;

/**
 * @param temperature one for each scan of the whole cast
 * @param scans       of one leg, in order of time
 * @returns the first scan of each window, in order of time; windows with a missing temperature are skipped
 */
export function gradientWindows(
  temperature: Float64Array,
  scans: Uint32Array,
  { length, most, bend }: WindowRule,
): readonly number[] {
  const first = scans[0];
  const last = scans.at(-1);
  if (first === undefined || last === undefined) return [];
  const hop = length / 2;
  const blocks = Math.floor((last + 1 - first) / hop);
  const strength = new Float64Array(blocks);
  const onLeg = new Uint32Array(blocks);
  for (let block = 0; block < blocks; block++) {
    const from = first + block * hop;
    strength[block] = bendOf(temperature, from, hop, bend);
    onLeg[block] = scansBefore(scans, from + hop) - scansBefore(scans, from);
  }
  const windows: { readonly start: number; readonly strength: number }[] = [];
  for (let block = 0; block + 1 < blocks; block++) {
    const own = strength[block]! + strength[block + 1]!;
    const enough = onLeg[block]! + onLeg[block + 1]! >= leastShare * length;
    if (enough && own > 0) windows.push({ start: first + block * hop, strength: own });
  }
  return windows
    .sort((a, b) => b.strength - a.strength)
    .slice(0, most)
    .map(({ start }) => start)
    .sort((a, b) => a - b);
}

/** Mean size of the second difference, K; NaN if a temperature is missing. */
function bendOf(temperature: Float64Array, from: number, count: number, bend: number): number {
  let sum = 0;
  let found = 0;
  const to = Math.min(from + count, temperature.length - bend);
  for (let i = Math.max(from, bend); i < to; i += stride) {
    sum += Math.abs(temperature[i + bend]! - 2 * temperature[i]! + temperature[i - bend]!);
    found++;
  }
  return sum / found;
}

/** Number of the rising scan numbers below one. */
function scansBefore(scans: Uint32Array, limit: number): number {
  let [low, high] = [0, scans.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (scans[middle]! < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}
