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

/**
 * "2031-05-07 14:00 UTC"; "" if unknown.
 * @param timeZone time on board minus UTC, as "+02:00": "2031-05-07 14:00 UTC (16:00 on board)" if given
 */
export function start({ start: time }: Verdict, timeZone?: string): string {
  const at = Date.parse(time ?? "");
  if (Number.isNaN(at)) return time ?? "";
  const utc = minuteOf(at);
  const [, sign, hours, minutes] = /^([+-])(\d\d):(\d\d)$/.exec(timeZone ?? "") ?? [];
  if (sign === undefined) return `${utc} UTC`;
  const aboard = minuteOf(
    at + (sign === "-" ? -1 : 1) * (60 * Number(hours) + Number(minutes)) * 60_000,
  );
  // Give the day only if it differs.
  const told = aboard.slice(0, 10) === utc.slice(0, 10) ? aboard.slice(11) : aboard;
  return `${utc} UTC (${told} on board)`;
}

function minuteOf(time_ms: number): string {
  return new Date(time_ms).toISOString().slice(0, 16).replace("T", " ");
}

/** Number used, and in brackets the number excluded; "none" without usable bottles. */
export function bottlesOf({ evidence }: Verdict): string {
  const found = evidence.find(({ line }) => line === "bottles");
  if (found === undefined) return "none";
  return `${found.n}${found.leftOut.length === 0 ? "" : ` (${found.leftOut.length} left out)`}`;
}
