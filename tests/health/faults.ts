// Sound casts that are simulated, and faults put into copies of their columns at a known place and size.
import type { Cast, CellColumns, CellName } from "../../src/cast/cast.js";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { castHealth } from "../../src/health/castHealth.js";
import type { HealthFinding, HealthKind } from "../../src/health/finding.js";
import {
  type OceanName,
  type RandomStream,
  randomStream,
  type Scenario,
  simulateCruise,
} from "../../src/simulate/index.js";

export const scansAt = (rate_Hz: number) => ({ kind: "time-series" as const, rate_Hz });
export const metres = { kind: "averages" as const, layer_dbar: 1 };

/** One cast of an invented cruise, shallow where the ocean is deep, so that it is quickly made. */
export function soundCast(
  scenario: Partial<Scenario> & { readonly seed: number; readonly ocean?: OceanName },
): Cast {
  const deep = (scenario.ocean ?? "open-ocean") === "open-ocean" ? { deepest_dbar: 300 } : {};
  const { cruise } = simulateCruise({ casts: 1, bottles: 8, ...deep, ...scenario });
  return cruise.casts[0]!.data!;
}

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
  return withCell(cast, cell, { ...readings, [sensor]: column });
}

export function withCell(cast: Cast, cell: CellName, readings: CellColumns): Cast {
  return { ...cast, columns: { ...cast.columns, [cell]: readings } };
}

export const healthOf = (cast: Cast) => castHealth(cast, splitLegs(cast));

export function kindsOf(findings: readonly HealthFinding[]): readonly HealthKind[] {
  return [...new Set(findings.map(({ kind }) => kind))];
}

/** The stretch of `length` scans, among 200 drawn, over which temperature changes most. */
export function steepest(cast: Cast, length: number, draw: RandomStream): number {
  const t = cast.columns.primary.temperature_C;
  let best = 0;
  let change = 0;
  for (let k = 0; k < 200; k++) {
    const i = Math.floor(draw.uniform() * (t.length - length));
    const here = Math.abs(t[i + length]! - t[i]!);
    if (here > change) {
      change = here;
      best = i;
    }
  }
  return best;
}
