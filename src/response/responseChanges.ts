// The usual response of one cell on earlier casts, and whether this cast differs. A clogging line or a failing pump delays
// conductivity and increases its thermal lag before any salinity looks wrong.
import type { SensorResponse } from "./sensorResponse.js";
import { type KnownValue, type UsualValue, usualResponse } from "./usualResponse.js";

export interface ResponseChange {
  readonly of: "alignment" | "thermal-lag";
  /** Seconds for alignment, times the usual cell for thermal lag. */
  readonly usual: UsualValue;
  /** This cast minus the usual. */
  readonly difference: number;
  readonly standardUncertainty: number;
  /** More than three standard uncertainties, and more than the least reported change. */
  readonly differs: boolean;
  /** In plain words. */
  readonly sentence: string;
}

/** Fewest earlier casts for a comparison (judgement). */
const fewestCasts = 3;
/** A sound line varies from cast to cast by at least this standard deviation (judgement). */
const leastScatter = { alignment: 0.003, "thermal-lag": 0.1 };
/** Smaller changes are not reported (judgement: 0.02 s is 0.002 in salinity where temperature changes by 0.1 K/s). */
const leastReported = { alignment: 0.02, "thermal-lag": 0.5 };
/** In standard uncertainties (common practice, no source). */
const beyond = 3;

/**
 * Whether a cell responds differently from its earlier casts.
 * @param before  the same cell's responses on the casts before, in any order
 * @param present response on this cast
 * @returns one for each quantity known on this cast and on at least three before it
 */
export function responseChanges(
  before: readonly SensorResponse[],
  present: SensorResponse,
): readonly ResponseChange[] {
  const changes: ResponseChange[] = [];
  for (const of of ["alignment", "thermal-lag"] as const) {
    const seen = before.flatMap((response) => knownOf(response, of) ?? []);
    const castScatter = { standardDeviation: leastScatter[of], isLowerLimit: true };
    const usual = seen.length < fewestCasts ? undefined : usualResponse(seen, castScatter);
    const now = knownOf(present, of);
    if (usual === undefined || now === undefined) continue;
    const difference = now.value - usual.value;
    const standardUncertainty = Math.hypot(
      now.standardUncertainty,
      usual.standardUncertainty,
      usual.castToCast,
    );
    const differs =
      Math.abs(difference) > Math.max(beyond * standardUncertainty, leastReported[of]);
    changes.push({
      of,
      usual,
      difference,
      standardUncertainty,
      differs,
      sentence: sentenceOf(of, usual, now.value, difference, standardUncertainty, differs),
    });
  }
  return changes;
}

function knownOf(response: SensorResponse, of: ResponseChange["of"]): KnownValue | undefined {
  if (of === "alignment") {
    const { alignment } = response;
    return (
      alignment && { value: alignment.seconds, standardUncertainty: alignment.standardUncertainty }
    );
  }
  const { thermalLag } = response;
  return (
    thermalLag && {
      value: thermalLag.timesUsual,
      standardUncertainty: thermalLag.timesUsualUncertainty,
    }
  );
}

function sentenceOf(
  of: ResponseChange["of"],
  usual: UsualValue,
  now: number,
  difference: number,
  uncertainty: number,
  differs: boolean,
): string {
  const casts = `over ${usual.casts} casts before`;
  if (of === "alignment") {
    const s = (value: number) => `${value.toFixed(3)} s`;
    const seen = `conductivity comes ${s(now)} after temperature, ${s(usual.value)} ${casts}`;
    return differs
      ? `${seen}: ${s(Math.abs(difference))} ± ${s(uncertainty)} ${difference > 0 ? "later" : "sooner"}. Look at the pump and the line`
      : `${seen}: no change`;
  }
  const seen = `thermal lag ${now.toFixed(1)} times that of a usual cell, ${usual.value.toFixed(1)} ${casts}`;
  return differs
    ? `${seen}: ${difference > 0 ? "more" : "less"} by ${Math.abs(difference).toFixed(1)} ± ${uncertainty.toFixed(1)}${difference > 0 ? ". Look at the pump and the line" : ""}`
    : `${seen}: no change`;
}
