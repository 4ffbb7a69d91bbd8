// How a cell answered on this cast beside how it answered on the casts before: the signs of a failing pump or a clogged
// line are changes, for every cell with its plumbing and every correction that a ship applies has a usual of its own.
import { type ResponseSigns, type Sign, soundSigns } from "../causes/responseSigns.js";
import { median } from "../statistics/robustCentre.js";

/** What was measured of the answer of one cell on one cast; absent where it could not be. */
export interface Measured {
  /** Amplitude of the thermal lag, in times the published usual; about 0 where it has been taken out. */
  readonly lag?: Sign;
  /** Seconds by which conductivity comes after temperature. */
  readonly delay?: Sign;
  /** Natural logarithm of the noise of conductivity. */
  readonly noise?: Sign;
}

/** What a cell's usual may be before any cast: mean and standard deviation (judgement). */
const beforehand = {
  lag: { value: 0.7, standardUncertainty: 0.6 },
  delay: { value: 0, standardUncertainty: 0.08 },
} as const;
/** A median is so much less certain than a mean: its variance is pi / 2 times as great. */
const ofMedian = Math.PI / 2;

/** @param before the same cell on the casts before, in any order */
export function signsOfResponse(before: readonly Measured[], now: Measured): ResponseSigns {
  const signs: { -readonly [Name in keyof ResponseSigns]: ResponseSigns[Name] } = {};
  for (const name of ["lag", "delay", "noise"] as const) {
    const seen = now[name];
    const usual = usualOf(
      before.flatMap((answer) => answer[name] ?? []),
      soundSigns[name].standardUncertainty,
      name === "noise" ? undefined : beforehand[name],
    );
    if (seen === undefined || usual === undefined) continue;
    const change = seen.value - usual.value;
    signs[name] = {
      value: soundSigns[name].value + change,
      standardUncertainty: Math.hypot(seen.standardUncertainty, usual.standardUncertainty),
    };
  }
  return signs;
}

/** The median of the casts, weighed against what was known beforehand. */
function usualOf(
  seen: readonly Sign[],
  scatter: number,
  prior: Sign | undefined,
): Sign | undefined {
  if (seen.length === 0) return prior;
  const own = median(seen.map(({ standardUncertainty }) => standardUncertainty));
  const variance = (ofMedian * (scatter ** 2 + own ** 2)) / seen.length;
  const middle = median(seen.map(({ value }) => value));
  if (prior === undefined) return { value: middle, standardUncertainty: Math.sqrt(variance) };
  const [a, b] = [1 / variance, prior.standardUncertainty ** -2];
  return {
    value: (a * middle + b * prior.value) / (a + b),
    standardUncertainty: 1 / Math.sqrt(a + b),
  };
}
