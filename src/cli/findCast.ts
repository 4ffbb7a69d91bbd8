// The cast named on the command line: 8 means 008 if no other cast matches.
import { castFinder } from "../read/castIds.js";
import { UsageError } from "./usageError.js";

/** @throws UsageError with the list of casts */
export function findCast(ids: readonly string[], wanted: string, what = "no such cast"): string {
  const found = castFinder(ids)(wanted);
  if (found !== undefined) return found;
  const there = ids.length === 0 ? "there are none" : `there are ${ids.join(", ")}`;
  throw new UsageError(`--cast ${wanted}: ${what}; ${there}`);
}
