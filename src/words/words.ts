// Numbers and states of a verdict in the words of the reports.

import { salinityError } from "../model/salinityError.js";
import type { CellVerdict, Estimate, Verdict } from "../verdict/verdict.js";
import { percent } from "./percent.js";
import { signed } from "./signed.js";

/** "−125 ± 8 ppm". */
export function ppm({ ppm: value, standardUncertainty }: Estimate): string {
  return `${signed(value)} \u00b1 ${standardUncertainty.toFixed(0)} ppm`;
}

/** "−0.0049 in salinity". */
export function inSalinity({ ppm: value }: Estimate): string {
  return `${signed(salinityError(value), 4)} in salinity`;
}

/** "fouling, 99 %". */
export function leading({ causes }: CellVerdict): string {
  const [first] = causes;
  return first === undefined ? "nothing known" : `${first.cause}, ${percent(first.probability)}`;
}

export function beyondTarget({ salinityError: { at35 } }: CellVerdict, target: number): boolean {
  return Math.abs(at35) > target;
}

/** "2031-05-07 14:00 UTC"; "" where it is not known. */
export function start({ start: time }: Verdict): string {
  const at = Date.parse(time ?? "");
  return Number.isNaN(at)
    ? (time ?? "")
    : `${new Date(at).toISOString().slice(0, 16).replace("T", " ")} UTC`;
}

/** "Wash, 15 minutes" of an intensity that is to be done. */
export function capital(word: string): string {
  return `${word.slice(0, 1).toUpperCase()}${word.slice(1)}`;
}

/** Used, and in brackets left out; "none" where there were no bottles to use. */
export function bottlesOf({ evidence }: Verdict): string {
  const found = evidence.find(({ line }) => line === "bottles");
  if (found === undefined) return "none";
  return `${found.n}${found.leftOut.length === 0 ? "" : ` (${found.leftOut.length} left out)`}`;
}
