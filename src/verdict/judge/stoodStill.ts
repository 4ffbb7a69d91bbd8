// What is said of a cell of which a sensor gave one value for most of a cast.
import { sum } from "d3-array";
import type { Sensor } from "../../health/finding.js";
import type { CauseProbability } from "../verdict.js";

/** Earlier casts may speak of a film, but nothing of this cast says that a cell without readings is sound. */
export function withoutSound(
  causes: readonly CauseProbability[],
  sensor: Sensor,
): readonly CauseProbability[] {
  const open = (cause: CauseProbability["cause"]) => cause === "sound" || cause === "undetermined";
  const probability = sum(causes, (one) => (open(one.cause) ? one.probability : 0));
  const because = saysNothing(sensor);
  return [
    ...causes.filter(({ cause }) => !open(cause)),
    { cause: "undetermined" as const, probability: Math.min(1, probability), because },
  ].toSorted((a, b) => b.probability - a.probability);
}

export function saysNothing(sensor: Sensor): string {
  return `The ${sensor} of this cell gave one value for most of the cast. This cast says nothing of the cell.`;
}
