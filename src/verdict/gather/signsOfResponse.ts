// The response of a cell on this cast relative to the casts before. Changes are the signs of a failing pump or a clogged
// line, because every cell with its plumbing and lag correction has its own usual response.
import { type ResponseSigns, type Sign, signsOfSoundCell } from "../../model/responseSigns.js";
import { usualResponse } from "../../response/usualResponse.js";

/** The measured response of one cell on one cast; a quantity that could not be measured is absent. */
export interface MeasuredSigns {
  /** Amplitude of the thermal lag, as a factor of the published usual; about 0 if the lag has been corrected. */
  readonly lag?: Sign;
  /** Delay of conductivity relative to temperature, s. */
  readonly delay?: Sign;
  /** Natural logarithm of the noise of conductivity. */
  readonly noise?: Sign;
}

/** Prior for the usual response of a cell before any cast: mean and standard deviation (judgement). */
const priorResponse = {
  lag: { value: 0.7, standardUncertainty: 0.6 },
  delay: { value: 0, standardUncertainty: 0.08 },
} as const;

/** A stronger lag is a fault, even if the cell has had it on every cast: twice the published (judgement). */
const mostUsualLag = 2;

/** @param before the same cell on the casts before, in any order */
export function signsOfResponse(
  before: readonly MeasuredSigns[],
  now: MeasuredSigns,
): ResponseSigns {
  const signs: { -readonly [Name in keyof ResponseSigns]: ResponseSigns[Name] } = {};
  for (const name of ["lag", "delay", "noise"] as const) {
    const seen = now[name];
    const usual = usualResponse(
      before.flatMap((response) => response[name] ?? []),
      { standardDeviation: signsOfSoundCell[name].standardUncertainty, isLowerLimit: false },
      name === "noise" ? undefined : priorResponse[name],
    );
    if (seen === undefined || usual === undefined) continue;
    const value = name === "lag" ? Math.min(usual.value, mostUsualLag) : usual.value;
    // A strong lag also varies strongly, in proportion. A lag near zero, which was corrected before, varies as that of a usual
    // cell.
    const scale = name === "lag" ? Math.max(1, value) : 1;
    const change = (seen.value - value) / scale;
    signs[name] = {
      value: signsOfSoundCell[name].value + change,
      standardUncertainty: Math.hypot(seen.standardUncertainty, usual.standardUncertainty) / scale,
    };
  }
  return signs;
}
