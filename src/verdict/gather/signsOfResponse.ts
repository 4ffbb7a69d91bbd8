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

/**
 * A lag of three times the published is a fault, even if the cell has had it on every cast. From 2.5 on it counts as a change
 * that grows twice as fast as the lag, up to that of a lag grown threefold (judgement).
 */
const fault = { from: 2.5, steepness: 2, most: 2 };

/** Changes of a strong lag are as strong, up to this many times those of a usual one (judgement). */
const mostScale = 2;

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
    if (name !== "lag") {
      signs[name] = changeOf(name, seen.value - usual.value, seen, usual);
      continue;
    }
    // A lag that was corrected is near zero, and changes as that of a usual cell.
    const scale = Math.min(mostScale, Math.max(1, usual.value));
    const relative = changeOf(name, (seen.value - usual.value) / scale, seen, usual, scale);
    const absolute = ofStrongLag(seen, usual);
    signs.lag = absolute.value > relative.value ? absolute : relative;
  }
  return signs;
}

function changeOf(
  name: keyof ResponseSigns,
  change: number,
  seen: Sign,
  usual: Sign,
  scale = 1,
): Sign {
  return {
    value: signsOfSoundCell[name].value + change,
    standardUncertainty: Math.hypot(seen.standardUncertainty, usual.standardUncertainty) / scale,
  };
}

/** The lag itself is known best from this cast together with those before, from which it may differ by the usual. */
function ofStrongLag(seen: Sign, usual: Sign): Sign {
  const { value: sound, standardUncertainty: variability } = signsOfSoundCell.lag;
  const own = 1 / seen.standardUncertainty ** 2;
  const before = 1 / (usual.standardUncertainty ** 2 + variability ** 2);
  const lag = (own * seen.value + before * usual.value) / (own + before);
  const { from, steepness, most } = fault;
  return {
    value: sound + Math.min(most, steepness * (lag - from)),
    standardUncertainty: 1 / Math.sqrt(own + before),
  };
}
