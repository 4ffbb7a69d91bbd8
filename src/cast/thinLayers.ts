// Both legs of a cast in thin layers, each cell averaged once. The lines of evidence share them, so that the hundred
// thousand scans are read only once.
import { averageByPressure } from "./averageByPressure.js";
import type { Cast, CellName, LegName } from "./cast.js";
import type { Legs } from "./splitLegs.js";
import { type Reach, reachOf } from "./sumByLayer.js";
import { type FlowLayers, withFlow } from "./withFlow.js";

export interface ThinLayers {
  /** Thickness of every layer; the first begins at 0 dbar. */
  readonly thickness_dbar: number;
  /** Pressure range of each leg's scans, dbar; 0 without scans. */
  readonly span_dbar: Readonly<Record<LegName, number>>;
  /** The greatest pressure of both legs' scans, dbar; 0 without scans. */
  readonly deepest_dbar: number;
  /** Computed at the first call, then stored. The down leg begins where water flows through the cell. */
  readonly of: (leg: LegName, cell: CellName) => FlowLayers;
}

/**
 * Thickness of the layers, dbar (common practice, no source); thinner if the cast would have too few layers, thicker if it
 * would have too many (judgement: resolution against time).
 */
const usual_dbar = 2;
const layersOfCast = { fewest: 200, most: 1500 };

export function thinLayers(cast: Cast, legs: Legs): ThinLayers {
  const { pressure_dbar } = cast.columns;
  const down = reachOf(pressure_dbar, legs.down);
  const up = reachOf(pressure_dbar, legs.up);
  const reach = { down, up };
  const span_dbar = { down: spanOf(down), up: spanOf(up) };
  const thickness_dbar = thicknessFor(legs, Math.max(span_dbar.down, span_dbar.up));
  const all = stored((leg, cell) =>
    averageByPressure(cast, legs[leg], cell, thickness_dbar, reach[leg]),
  );
  const of = stored((leg, cell): FlowLayers => {
    if (leg === "up") return all(leg, cell);
    const other = cell === "primary" ? "secondary" : "primary";
    const beside = cast.columns[other] && all(leg, other);
    return withFlow(all(leg, cell), all("up", cell), beside, thickness_dbar);
  });
  return {
    thickness_dbar,
    span_dbar,
    deepest_dbar: Math.max(0, down.deepest, up.deepest),
    of,
  };
}

/** Computes each value once. */
function stored<Value>(compute: (leg: LegName, cell: CellName) => Value) {
  const known = new Map<string, Value>();
  return (leg: LegName, cell: CellName): Value => {
    const key = `${leg} ${cell}`;
    if (!known.has(key)) known.set(key, compute(leg, cell));
    return known.get(key)!;
  };
}

/** Thin enough to resolve the cast, thick enough for at least one scan in each layer. */
function thicknessFor({ down, up }: Legs, span: number): number {
  const fewest = Math.min(down.length || up.length, up.length || down.length);
  const spacing = fewest > 0 ? span / fewest : 0;
  const thin = Math.min(usual_dbar, span / layersOfCast.fewest);
  return Math.max(thin, span / layersOfCast.most, spacing) || usual_dbar;
}

/** 0 without scans. */
function spanOf({ shallowest, deepest }: Reach): number {
  return Math.max(0, deepest - shallowest);
}
