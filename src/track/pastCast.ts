// The few facts about an earlier cast that later casts need, kept after its observations are discarded.
import type { CellName } from "../cast/cast.js";
import type { MaintenanceEvent } from "../cast/maintenance.js";
import { observesGainOf } from "../model/observation.js";
import type { TrackedInput } from "./tracked.js";

export interface PastCast {
  readonly cast: string;
  /** ISO 8601 UTC; absent if unknown. */
  readonly start?: string;
  /** Cells with at least one observation of their gain. */
  readonly observed: readonly CellName[];
  /** The number of observations of each line, by its name. */
  readonly lines: Readonly<Record<string, number>>;
  /** Time in the water; absent without scans. */
  readonly inWater_days?: number;
  /** Maintenance between this cast and the next. */
  readonly maintenanceAfter: readonly MaintenanceEvent[];
}

export function pastCast(input: TrackedInput): PastCast {
  const { cast, start, observations, path, maintenanceAfter } = input;
  const lines: Record<string, number> = {};
  for (const { line } of observations) lines[line] = (lines[line] ?? 0) + 1;
  return {
    cast,
    ...(start === undefined ? {} : { start }),
    observed: (["primary", "secondary"] as const).filter((cell) =>
      observations.some((observation) => observesGainOf(observation, cell)),
    ),
    lines,
    ...(path === undefined ? {} : { inWater_days: path.days }),
    maintenanceAfter,
  };
}
