// Limits that give exit status 3, for scripts and alarms.
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

type LimitName = keyof typeof limits;

/** @throws UsageError if a name is not a limit */
export function limitsFrom(names: readonly string[]): readonly LimitName[] {
  return names
    .flatMap((name) => name.split(","))
    .map((name) => {
      if (Object.hasOwn(limits, name)) return name as LimitName;
      throw new UsageError(`--fail-on ${name}: expected one of ${limitNames}`);
    });
}

export function limitsMet(names: readonly LimitName[], verdict: Verdict): boolean {
  return names.some((name) => limits[name](verdict));
}
