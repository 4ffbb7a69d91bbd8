// The final level of a draining reading: the longest last part that is constant.
import { madScale } from "../../statistics/madScale.js";
import { median } from "../../statistics/robustCentre.js";

/** A shorter reading, or one with fewer values, has no settled level (judgement). */
const least_s = 10;
const leastValues = 8;
/** The error of the level is estimated from the scatter of this many parts (judgement). */
const blocks = 8;
/** If the two halves of a part differ by more than this many times their errors, the reading is not settled (judgement). */
const beyondChance = 3;

interface SettledLevel {
  readonly level: number;
  /** Standard error of the level. */
  readonly standardError: number;
  /** First half of the settled part minus the second half. */
  readonly fall: number;
  /** Standard deviation of one value about its neighbours. */
  readonly noise: number;
  readonly seconds: number;
  /** False if even the last part was still changing. */
  readonly settled: boolean;
}

/**
 * @param values    in order of time, NaN if missing; a few outliers do no harm
 * @param seconds   one for each value
 * @param tolerance a smaller fall is ignored, unit of the values
 * @returns undefined if there are too few values
 */
export function settledLevel(
  values: readonly number[],
  seconds: readonly number[],
  tolerance: number,
): SettledLevel | undefined {
  let found: SettledLevel | undefined;
  for (let share = 1; ; share /= 2) {
    const from = values.length - Math.floor(values.length * share);
    const part = levelOf(values.slice(from), seconds.slice(from), tolerance);
    if (part === undefined) return found;
    found = part;
    if (part.settled) return found;
  }
}

function levelOf(
  values: readonly number[],
  seconds: readonly number[],
  tolerance: number,
): SettledLevel | undefined {
  const present = values.filter(Number.isFinite);
  const span = seconds.length === 0 ? 0 : seconds.at(-1)! - seconds[0]!;
  if (present.length < leastValues || !(span >= least_s)) return undefined;
  const half = Math.floor(present.length / 2);
  const [first, second] = [present.slice(0, half), present.slice(half)];
  const fall = median(first) - median(second);
  const noise = madScale(present.slice(1).map((v, i) => v - present[i]!)) / Math.SQRT2;
  const size = Math.ceil(present.length / blocks);
  const parts = Array.from({ length: Math.ceil(present.length / size) }, (_, k) =>
    median(present.slice(k * size, (k + 1) * size)),
  );
  const standardError = madScale(parts) / Math.sqrt(parts.length);
  return {
    level: median(present),
    standardError,
    fall,
    noise,
    seconds: span,
    settled:
      Math.abs(fall) <= Math.max(tolerance, beyondChance * Math.SQRT2 * noiseOfMedian(noise, half)),
  };
}

/** Standard error of the median of this many values with white noise: sqrt(pi / 2) times that of their mean. */
function noiseOfMedian(noise: number, n: number): number {
  return Math.sqrt(Math.PI / 2 / n) * noise;
}
