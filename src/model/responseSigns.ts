// How a cell with its thermometer answered on a cast, beside how such a one usually answers; what the causes that lie in
// the plumbing are compared by. Each sign is normal about the usual, with a spread of its own while all is well.
import { normalLogDensity } from "../statistics/normal.js";

/** What is seen of one cell, each with its standard uncertainty; what is not seen is absent. */
export interface ResponseSigns {
  /** Amplitude of the thermal lag, in times the usual. */
  readonly lag?: Sign;
  /** Seconds by which conductivity comes later than this cell's usual. */
  readonly delay?: Sign;
  /** Natural logarithm of the noise over what is usual for this cell. */
  readonly noise?: Sign;
}

export interface Sign {
  readonly value: number;
  readonly standardUncertainty: number;
}

type SignName = keyof ResponseSigns;

/**
 * Sound cells: amplitudes fitted on ships differ from the published by a third or so [MorisonEtAl1994], delays by
 * hundredths of a second, noise by a quarter (judgement).
 */
export const soundSigns: Readonly<Record<SignName, Sign>> = {
  lag: { value: 1, standardUncertainty: 0.35 },
  delay: { value: 0, standardUncertainty: 0.03 },
  noise: { value: 0, standardUncertainty: 0.3 },
};

/** By how much signs have moved, those not named by nothing: mean and standard deviation of what is added to each. */
export type MovedSigns = Readonly<
  Partial<Record<SignName, { readonly mean: number; readonly sd: number }>>
>;

/** Log of how much more probable the signs are where some of them have moved. */
export function logOddsOfSigns(signs: ResponseSigns, moved: MovedSigns): number {
  let sum = 0;
  for (const name of Object.keys(moved) as SignName[]) {
    const seen = signs[name];
    const change = moved[name];
    if (seen === undefined || change === undefined) continue;
    const usual = soundSigns[name];
    const variance = usual.standardUncertainty ** 2 + seen.standardUncertainty ** 2;
    const away = seen.value - usual.value;
    sum +=
      normalLogDensity(away - change.mean, variance + change.sd ** 2) -
      normalLogDensity(away, variance);
  }
  return sum;
}
