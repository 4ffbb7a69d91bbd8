// What later casts ask of an earlier one: a few words, kept when its observations are gone.
import type { CellName } from "../cast/cast.js";
import type { MaintenanceEvent } from "../cast/maintenance.js";
import { seesGainOf } from "../model/observation.js";
import type { TrackedInput } from "./tracked.js";

export interface PastCast {
  readonly cast: string;
  /** ISO 8601 UTC; absent where not known. */
  readonly start?: string;
  /** Cells whose gain something was observed of. */
  readonly observed: readonly CellName[];
  /** How many observations each line brought, by its name. */
  readonly lines: Readonly<Record<string, number>>;
  /** What the record says was done after it and before the next. */
  readonly maintenanceAfter: readonly MaintenanceEvent[];
}

export function pastCast({ cast, start, observations, maintenanceAfter }: TrackedInput): PastCast {
  const lines: Record<string, number> = {};
  for (const { line } of observations) lines[line] = (lines[line] ?? 0) + 1;
  return {
    cast,
    ...(start === undefined ? {} : { start }),
    observed: (["primary", "secondary"] as const).filter((cell) =>
      observations.some((observation) => seesGainOf(observation, cell)),
    ),
    lines,
    maintenanceAfter,
  };
}
