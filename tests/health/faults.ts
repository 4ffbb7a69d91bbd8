// Sound casts that are simulated, and faults put into copies of their columns at a known place and size.
import type { Cast, CellColumns, CellName } from "../../src/cast/cast.js";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { castHealth } from "../../src/health/castHealth.js";
import type { HealthFinding, HealthKind } from "../../src/health/finding.js";
import {
  type RandomStream,
  randomStream,
  type Scenario,
  simulateCruise,
} from "../../src/simulate/index.js";

export function soundCast(scenario: Partial<Scenario> & { readonly seed: number }): Cast {
  const { cruise } = simulateCruise({ casts: 1, deepest_dbar: 300, bottles: 6, ...scenario });
  return cruise.casts[0]!.data!;
}

export const scansAt = (rate_Hz: number) => ({ kind: "time-series" as const, rate_Hz });

/** A copy of the cast in which one sensor's column was changed. */
export function withFault(
  cast: Cast,
  cell: CellName,
  sensor: keyof CellColumns,
  change: (column: Float64Array, draw: RandomStream) => void,
  seed = 0,
): Cast {
  const readings = cast.columns[cell]!;
  const column = readings[sensor].slice();
  change(column, randomStream(seed).split("fault"));
  return { ...cast, columns: { ...cast.columns, [cell]: { ...readings, [sensor]: column } } };
}

export const healthOf = (cast: Cast) => castHealth(cast, splitLegs(cast));

export function kindsOf(findings: readonly HealthFinding[]): readonly HealthKind[] {
  return findings.map(({ kind }) => kind);
}
