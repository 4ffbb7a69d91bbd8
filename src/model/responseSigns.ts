// Signs of the response of a cell with its thermometer on a cast, relative to its usual response. They distinguish the
// causes in the plumbing. Each sign of a sound cell is normal about the usual value, with its own standard deviation.
import { normalLogDensity } from "../statistics/normal.js";

/** Signs of one cell, each with its standard uncertainty; a sign that was not observed is absent. */
export interface ResponseSigns {
  /** Amplitude of the thermal lag, as a factor of the usual. */
  readonly lag?: Sign;
  /** Delay of conductivity relative to the usual of this cell, s. */
  readonly delay?: Sign;
  /** Natural logarithm of the noise relative to the usual of this cell. */
  readonly noise?: Sign;
}

export interface Sign {
  readonly value: number;
  readonly standardUncertainty: number;
}

type SignName = keyof ResponseSigns;

/**
 * Standard deviations for sound cells. Amplitudes fitted on ships differ from the published by a third or so
 * [MorisonEtAl1994], delays by hundredths of a second, noise by a quarter (judgement).
 */
export const signsOfSoundCell: Readonly<Record<SignName, Sign>> = {
  lag: { value: 1, standardUncertainty: 0.35 },
  delay: { value: 0, standardUncertainty: 0.03 },
  noise: { value: 0, standardUncertainty: 0.3 },
};

/** Shift of each sign under a cause, mean and standard deviation; a sign without an entry is not shifted. */
export type SignShifts = Readonly<
  Partial<Record<SignName, { readonly mean: number; readonly sd: number }>>
>;

/** Log of the likelihood ratio of the signs with and without the shifts. */
export function logOddsOfSigns(signs: ResponseSigns, shifts: SignShifts): number {
  let sum = 0;
  for (const name of Object.keys(shifts) as SignName[]) {
    const seen = signs[name];
    const change = shifts[name];
    if (seen === undefined || change === undefined) continue;
    const usual = signsOfSoundCell[name];
    const variance = usual.standardUncertainty ** 2 + seen.standardUncertainty ** 2;
    const away = seen.value - usual.value;
    sum +=
      normalLogDensity(away - change.mean, variance + change.sd ** 2) -
      normalLogDensity(away, variance);
  }
  return sum;
}
