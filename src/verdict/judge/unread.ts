// The verdict on a cell with a sensor that gives no information on a cast.
import { sum } from "d3-array";
import type { UnreadSensor } from "../../health/castHealth.js";
import type { CauseProbability, DataQuality } from "../verdict.js";

/** Earlier casts may indicate a film, but a cell without readings on this cast cannot be called sound. */
export function undeterminedForSound(
  causes: readonly CauseProbability[],
  unread: UnreadSensor,
): readonly CauseProbability[] {
  const open = (cause: CauseProbability["cause"]) => cause === "sound" || cause === "undetermined";
  const probability = sum(causes, (one) => (open(one.cause) ? one.probability : 0));
  const because = noInformationSentence(unread);
  return [
    ...causes.filter(({ cause }) => !open(cause)),
    { cause: "undetermined" as const, probability: Math.min(1, probability), because },
  ].toSorted((a, b) => b.probability - a.probability);
}

export function noInformationSentence({ sensor, why }: UnreadSensor): string {
  return why === "stood"
    ? `The ${sensor} of this cell gave one value for most of the cast. This cast has no information about the cell.`
    : `The ${sensor} of this cell is written with too few decimals. This cast has no information about the cell.`;
}

export function unreadQuality({ why }: UnreadSensor): DataQuality {
  return why === "stood" ? "bad" : "questionable";
}

/** Measures that would make a verdict possible. */
export function measuresToReadCell({ cell, sensor, why }: UnreadSensor): string {
  return why === "stood"
    ? `Look at the cable of the ${sensor} of the ${cell} cell. A cast on which it reads again would give a verdict.`
    : `Write the ${sensor} of the ${cell} cell with four decimals or more. The same cast would then give a verdict.`;
}
