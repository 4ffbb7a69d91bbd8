// Limits that turn a verdict into exit status 3, for scripts and watch-keeping alarms.
import type { Verdict } from "../verdict/verdict.js";
import { UsageError } from "./usageError.js";

const limits = {
  fouling: ({ cells }: Verdict) =>
    Object.values(cells).some(({ causes }) => causes[0]?.cause === "fouling"),
  "deep-clean": ({ advice }: Verdict) => advice.deepClean,
  "not-sound": ({ data }: Verdict) => data !== "sound",
  questionable: ({ data }: Verdict) => data === "questionable" || data === "bad",
} as const satisfies Record<string, (verdict: Verdict) => boolean>;

export const limitNames = Object.keys(limits).join(", ");

/** @throws UsageError where a name is not a limit */
export function limitsMet(names: readonly string[], verdict: Verdict): boolean {
  const asked = names.flatMap((name) => name.split(","));
  const unknown = asked.find((name) => !(name in limits));
  if (unknown !== undefined) {
    throw new UsageError(`--fail-on ${unknown}: expected one of ${limitNames}`);
  }
  return asked.some((name) => limits[name as keyof typeof limits](verdict));
}
