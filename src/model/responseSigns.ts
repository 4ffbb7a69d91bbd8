// Signs of the response of a cell with its thermometer on a cast, relative to its usual response. They distinguish the
// causes in the plumbing. Each sign of a sound cell is normal about the usual value, with its own standard deviation.
import { logSum } from "../statistics/logSum.js";
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

/**
 * Some estimates go astray, with and without a fault: delays in even water, noise in rough or bubbly water. Such a sign is normal
 * about the usual value with this standard deviation (shares and sizes: judgement). A lag needs no such share, because its fit
 * gives its uncertainty.
 */
const astray: Readonly<Partial<Record<SignName, { readonly share: number; readonly sd: number }>>> =
  {
    delay: { share: 0.02, sd: 1 },
    noise: { share: 0.05, sd: 1.5 },
  };

/**
 * Log of the likelihood ratio of the signs with and without the shifts. A fault makes every sign larger. A sign smaller than
 * usual counts as usual.
 */
export function logOddsOfSigns(signs: ResponseSigns, shifts: SignShifts): number {
  let sum = 0;
  for (const name of Object.keys(shifts) as SignName[]) {
    const seen = signs[name];
    const change = shifts[name];
    if (seen === undefined || change === undefined) continue;
    const usual = signsOfSoundCell[name];
    const variance = usual.standardUncertainty ** 2 + seen.standardUncertainty ** 2;
    const away = Math.max(0, seen.value - usual.value);
    const mixed = (logDensity: number) => {
      const other = astray[name];
      if (other === undefined) return logDensity;
      const elsewhere = normalLogDensity(away, variance + other.sd ** 2);
      return logSum([logDensity, elsewhere], [1 - other.share, other.share]);
    };
    sum +=
      mixed(normalLogDensity(away - change.mean, variance + change.sd ** 2)) -
      mixed(normalLogDensity(away, variance));
  }
  return sum;
}
