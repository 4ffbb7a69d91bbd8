// The numbers of the intensities, each with its source: common practice without a source, or judgement.
import type { Figure } from "../intensity.js";

export function usual(value: number, unit: string): Figure {
  return { value, unit, source: "common practice, no source" };
}

export function judged(value: number, unit: string): Figure {
  return { value, unit, source: "judgement" };
}
