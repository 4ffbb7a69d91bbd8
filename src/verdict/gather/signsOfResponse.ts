// How a cell answered on this cast beside how it answered on the casts before: the signs of a failing pump or a clogged
// line are changes, for every cell with its plumbing and every correction that a ship applies has a usual of its own.
import { type ResponseSigns, type Sign, soundSigns } from "../../model/responseSigns.js";
import { usualAnswer } from "../../response/usualAnswer.js";

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

/** @param before the same cell on the casts before, in any order */
export function signsOfResponse(before: readonly Measured[], now: Measured): ResponseSigns {
  const signs: { -readonly [Name in keyof ResponseSigns]: ResponseSigns[Name] } = {};
  for (const name of ["lag", "delay", "noise"] as const) {
    const seen = now[name];
    const usual = usualAnswer(
      before.flatMap((answer) => answer[name] ?? []),
      { standardDeviation: soundSigns[name].standardUncertainty, learnt: false },
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
